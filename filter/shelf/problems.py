"""What can go wrong with those who check, whatever the documents hold."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Level, Problem


@dataclass(eq=False, repr=False)
class WorkerDied(Problem):
    """The process that checked a document ended before it had an answer, and so did the one that tried it again.

    It was killed: by somebody, or by the system because memory ran out. The second try was made while no other
    document was being checked. All other documents were checked as ever.

    Attributes:
        how: how it ended.
    """

    slug: ClassVar[str] = "worker-died"
    level: ClassVar[Level] = "unreadable"

    how: str

    def sentence(self) -> str:
        return f"the process that checked this document ended without an answer, twice ({self.how})"

    def mend(self) -> str:
        return "see whether the machine has memory to spare; check this document alone"


@dataclass(eq=False, repr=False)
class DocumentUnfinished(Problem):
    """A document took longer to check than one document may, and its check was ended.

    All other documents were checked as ever. An ordinary paper takes a tenth of a second.

    Attributes:
        seconds: how long it was given.
    """

    slug: ClassVar[str] = "document-unfinished"
    level: ClassVar[Level] = "unreadable"

    seconds: float

    def sentence(self) -> str:
        return f"the check took longer than {self.seconds:g} s and was ended"

    def mend(self) -> str:
        return f"split the document, or allow more with --timeout {2 * self.seconds:g}"


@dataclass(eq=False, repr=False)
class ClusterMissing(Problem):
    """Documents are to be checked by a cluster, and the library that reaches one is not installed.

    Attributes:
        missing: the module that was not found.
    """

    slug: ClassVar[str] = "cluster-missing"
    level: ClassVar[Level] = "unreadable"

    missing: str

    def sentence(self) -> str:
        return f'the library that reaches a cluster is not installed (there is no module "{self.missing}")'

    def mend(self) -> str:
        return "pip install 'physcalc[cluster]'"


@dataclass(eq=False, repr=False)
class ClusterUnreachable(Problem):
    """The scheduler of a cluster does not answer, or has no workers.

    Attributes:
        address: the scheduler's address as it was given.
        reason: why, as the rest of a sentence that begins with the cluster.
    """

    slug: ClassVar[str] = "cluster-unreachable"
    level: ClassVar[Level] = "unreadable"

    address: str
    reason: str

    def sentence(self) -> str:
        return f'the cluster at "{self.address}" {self.reason}'

    def mend(self) -> str:
        return "see that dask scheduler and dask worker run, and write the address as tcp://HOST:PORT"


@dataclass(eq=False, repr=False)
class ClusterUnlike(Problem):
    """A cluster has not the version of this program that asks it, so its answers might be others.

    The same version must be installed where its workers run, and where its scheduler runs.

    Attributes:
        worker: the version that it has; empty for none.
        own: the version that asks.
    """

    slug: ClassVar[str] = "cluster-unlike"
    level: ClassVar[Level] = "unreadable"

    worker: str
    own: str

    def sentence(self) -> str:
        if not self.worker:
            return f"the scheduler or a worker of the cluster has no physcalc {self.own}"
        return f"a worker of the cluster has physcalc {self.worker}, and this is physcalc {self.own}"

    def mend(self) -> str:
        return f"install physcalc {self.own} where scheduler and workers run, and start them again"
