"""The order in which Word accepts the parts of an element: ECMA-376 part 1 (5th edition), annex A, transitional schema.

Written down from memory of the schema and checked against what word processors store.
"""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree import ElementTree

WORD = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"

ORDER = {
    name: names.split()
    for name, names in {
        "pPr": "pStyle keepNext keepLines pageBreakBefore framePr widowControl numPr suppressLineNumbers pBdr shd tabs "
        "suppressAutoHyphens kinsoku wordWrap overflowPunct topLinePunct autoSpaceDE autoSpaceDN bidi adjustRightInd "
        "snapToGrid spacing ind contextualSpacing mirrorIndents suppressOverlap jc textDirection textAlignment "
        "textboxTightWrap outlineLvl divId cnfStyle rPr sectPr pPrChange",
        "rPr": "rStyle rFonts b bCs i iCs caps smallCaps strike dstrike outline shadow emboss imprint noProof "
        "snapToGrid vanish webHidden color spacing w kern position sz szCs highlight u effect bdr shd fitText "
        "vertAlign rtl cs em lang eastAsianLayout specVanish oMath",
        "tblPr": "tblStyle tblpPr tblOverlap bidiVisual tblStyleRowBandSize tblStyleColBandSize tblW jc "
        "tblCellSpacing tblInd tblBorders shd tblLayout tblCellMar tblLook tblCaption tblDescription",
        "tcPr": "cnfStyle tcW gridSpan hMerge vMerge tcBorders shd noWrap tcMar textDirection tcFitText vAlign "
        "hideMark",
        "sectPr": "headerReference footerReference footnotePr endnotePr type pgSz pgMar paperSrc pgBorders lnNumType "
        "pgNumType cols formProt vAlign noEndnote titlePg textDirection bidi rtlGutter docGrid printerSettings",
        "style": "name aliases basedOn next link autoRedefine hidden uiPriority semiHidden unhideWhenUsed qFormat "
        "locked personal personalCompose personalReply rsid pPr rPr tblPr trPr tcPr tblStylePr",
        "tblBorders": "top left bottom right insideH insideV",
        "pBdr": "top left bottom right between bar",
        "tblCellMar": "top left bottom right",
        # What stands around the mode of compatibility.
        "settings": "zoom embedSystemFonts proofState stylePaneFormatFilter doNotTrackMoves defaultTabStop "
        "autoHyphenation evenAndOddHeaders drawingGridHorizontalSpacing drawingGridVerticalSpacing "
        "displayHorizontalDrawingGridEvery displayVerticalDrawingGridEvery characterSpacingControl savePreviewPicture "
        "footnotePr endnotePr compat rsids mathPr themeFontLang clrSchemeMapping decimalSymbol listSeparator",
    }.items()
}


def misplaced(root: ElementTree.Element) -> Iterator[str]:
    """Each element whose parts stand in another order, or are not known here."""
    for element in root.iter():
        order = ORDER.get(element.tag.removeprefix(WORD)) if element.tag.startswith(WORD) else None
        if order is None:
            continue
        names = [child.tag.rpartition("}")[2] for child in element]
        places = [order.index(name) if name in order else -1 for name in names]
        if -1 in places or places != sorted(places):
            yield f"{element.tag.removeprefix(WORD)}: {' '.join(names)}"
