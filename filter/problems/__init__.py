"""The document side's problems: room 0, one class for each thing that can be wrong, by what it is about."""

from importlib import import_module
from typing import TYPE_CHECKING

from .bodies import (
    BlockEmpty,
    BlockIndentation,
    BlockTab,
    BlockTooLong,
    BlockUnreadable,
    KeyEmpty,
    KeyShape,
    KeyTwice,
    KeyUnknown,
)
from .figures import FigureKeyUnreadable, FigureKindMissing, KeyMarksFewer, MarkingUnequal
from .files import (
    FileEmpty,
    FileMissing,
    FileNotUtf8,
    FileTooLarge,
)
from .front_matter import (
    FrontMatterUnreadable,
    SettingMisplaced,
    SettingTwice,
    SettingUnknown,
    SettingUnreadable,
)
from .program import ProgramFault
from .questions import (
    AttributeMissing,
    AttributeUnknown,
    AttributeUnreadable,
    ClassMisspelt,
    DocumentNested,
    DocumentPartsMany,
    DocumentTooHeavy,
    DocumentUnreadable,
    IdTwice,
    MarksMissing,
    MarksUnequal,
    NumberOutOfOrder,
    PandocVersion,
    ReferenceLater,
    TicksUnequal,
    TotalUnequal,
)
from .source_kinds import TEX_ENDINGS, in_latex
from .structure import ClassMissing, DivUnbalanced, LinkUnknown
from .text import (
    AnswerPrinted,
    AttributesUnread,
    DecimalSignOther,
    DefinitionIncomplete,
    NameAmbiguous,
    NumberLoose,
    UnreadReason,
    ValueMisplaced,
    block_lost,
    question_lost,
    value_span,
)
from .weights import (
    GridOffTarget,
    GridTargetsSum,
    GridTargetUnused,
    MethodsMarksDiffer,
    OptionsUnbalanced,
    SectionUnequal,
    SlipUnknown,
)

if TYPE_CHECKING:
    from .tex import (
        TexArgumentOpen,
        TexCommentInBody,
        TexEnvironmentOpen,
        TexEnvironmentUnopened,
        TexInputUnreadable,
        TexItemsNoQuestions,
        TexMacroArgument,
        TexNameUnknown,
        TexPictureMissing,
        TexPlaceLost,
        TexPreambleElsewhere,
        TexTextLeftOut,
        TexToday,
    )
    from .values_named import (
        TakenGiven,
        TakenSeveral,
        TakenTwice,
        TakenUnknown,
        TakenUnreadable,
        TraceSeveral,
        TraceUnknown,
    )

#: What few documents can have, by the module that has it.
_LATER = {
    "tex": (
        "TexArgumentOpen",
        "TexCommentInBody",
        "TexEnvironmentOpen",
        "TexEnvironmentUnopened",
        "TexInputUnreadable",
        "TexItemsNoQuestions",
        "TexMacroArgument",
        "TexNameUnknown",
        "TexPictureMissing",
        "TexPlaceLost",
        "TexPreambleElsewhere",
        "TexTextLeftOut",
        "TexToday",
        "TexToday",
    ),
    "values_named": (
        "TakenGiven",
        "TakenSeveral",
        "TakenTwice",
        "TakenUnknown",
        "TakenUnreadable",
        "TraceSeveral",
        "TraceUnknown",
    ),
}
_MODULES = {name: module for module, names in _LATER.items() for name in names}

__all__ = [
    "TEX_ENDINGS",
    "AnswerPrinted",
    "AttributeMissing",
    "AttributeUnknown",
    "AttributeUnreadable",
    "AttributesUnread",
    "BlockEmpty",
    "BlockIndentation",
    "BlockTab",
    "BlockTooLong",
    "BlockUnreadable",
    "ClassMissing",
    "ClassMisspelt",
    "DecimalSignOther",
    "DefinitionIncomplete",
    "DivUnbalanced",
    "DocumentNested",
    "DocumentPartsMany",
    "DocumentTooHeavy",
    "DocumentUnreadable",
    "FigureKeyUnreadable",
    "FigureKindMissing",
    "FileEmpty",
    "FileMissing",
    "FileNotUtf8",
    "FileTooLarge",
    "FrontMatterUnreadable",
    "GridOffTarget",
    "GridTargetUnused",
    "GridTargetsSum",
    "IdTwice",
    "KeyEmpty",
    "KeyMarksFewer",
    "KeyShape",
    "KeyTwice",
    "KeyUnknown",
    "LinkUnknown",
    "MarkingUnequal",
    "MarksMissing",
    "MarksUnequal",
    "MethodsMarksDiffer",
    "NameAmbiguous",
    "NumberLoose",
    "NumberOutOfOrder",
    "OptionsUnbalanced",
    "PandocVersion",
    "ProgramFault",
    "ReferenceLater",
    "SectionUnequal",
    "SettingMisplaced",
    "SettingTwice",
    "SettingUnknown",
    "SettingUnreadable",
    "SlipUnknown",
    "TakenGiven",
    "TakenSeveral",
    "TakenTwice",
    "TakenUnknown",
    "TakenUnreadable",
    "TexArgumentOpen",
    "TexCommentInBody",
    "TexEnvironmentOpen",
    "TexEnvironmentUnopened",
    "TexInputUnreadable",
    "TexItemsNoQuestions",
    "TexMacroArgument",
    "TexNameUnknown",
    "TexPictureMissing",
    "TexPlaceLost",
    "TexPreambleElsewhere",
    "TexTextLeftOut",
    "TexToday",
    "TicksUnequal",
    "TotalUnequal",
    "TraceSeveral",
    "TraceUnknown",
    "UnreadReason",
    "ValueMisplaced",
    "block_lost",
    "in_latex",
    "question_lost",
    "value_span",
]


def __getattr__(name: str) -> object:
    # Imported when it is asked for.
    if name not in _MODULES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f".{_MODULES[name]}", __name__), name)
