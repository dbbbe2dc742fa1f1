"""What is compared, with whom, and how fine each may choose its mesh.

A figure is a current density [A/m2] on a coin: least, mean and largest along
its surface; of several angles, changes or coins with their number behind."""

from dataclasses import dataclass, field

# Peers' meshes go by the edges on a quarter of a coin's rounding, or, where they
# adapt, by how much smaller than 0.1 % the last change must be.
EDGES = [1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 20, 24, 28, 32, 40, 48]
STOPS = [0.25, 0.5, 1, 2, 4, 8, 16, 32, 64]
# Ours go by the tolerance, in shares of the error aimed at: the one that a user
# would ask for first; without an estimate, as the peers, from coarse on.
ASKED = [1, 0.5, 0.2, 0.1, 0.05]
COARSE = [8, 4, 2, 1, 0.5, 0.2, 0.1, 0.05]


@dataclass
class Contestant:
    who: str
    program: str  # a key of programs.commands
    task: str
    ladder: list
    what: str = ""
    relative: bool = False  # its ladder counts in shares of the error aimed at
    blind: bool = False  # looks for itself when it is fine enough

    @property
    def ours(self):
        return self.program == "ours"


def ours(task, ladder, what, blind=True):
    return Contestant("thinspot", "ours", task, ladder, what, True, blind)


def freefem(task, ladder=None, what="", blind=False):
    return Contestant("FreeFem++", "freefem", task, ladder or EDGES, what,
                      blind=blind)


def with_gmsh(task):
    return [Contestant("dolfinx with Gmsh", "dolfinx", task, EDGES),
            Contestant("GetFEM with Gmsh", "getfem", task, EDGES)]


@dataclass
class Task:
    number: int
    title: str
    says: str
    goal: float  # ratio to the fastest peer, or seconds, or spread: see `judge`
    judge: str
    contestants: list
    error: float = 1e-3  # aimed at, of the mean
    reference: tuple = ("coin", 1e-6)  # our task and tolerance
    check_fineness: int = 32  # of the peer that looks at the reference
    floor: str = "coin"
    sizes: list = field(default_factory=list)


def coin(number, error):
    return Task(
        number, f"One coin to {100 * error:g} %",
        "A 30 mm coin before a sheet at one volt: from the drawing to least, "
        "mean and largest current density.",
        5, "ratio",
        [ours("certified", ASKED, "with its error bars, not knowing the answer"),
         ours("plain", COARSE, "one mesh, matched", False),
         freefem("coin", what="one mesh, matched"),
         freefem("adapted", STOPS, "adapted until nothing changes", True)]
        + with_gmsh("coin"), error)


SIZES = [200_000, 800_000, 4_000_000]

TASKS = [
    coin(1, 1e-3),
    coin(2, 1e-4),
    Task(3, "72 angles", "The coin turned in steps of 5 degrees, each with its "
         "figures; every twelfth is compared.", 100, "ratio",
         [ours("angles", ASKED, "one mesh, parted at a circle"),
          freefem("angles", what="a mesh for each"),
          freefem("glued", what="a disc turned and glued into the rest")]
         + with_gmsh("angles"),
         reference=("angles", 1e-5), check_fineness=12, floor="angles"),
    Task(4, "200 changes of current and polarization", "Another slope and another "
         "mean current density each time, at one geometry; the mesh and what "
         "is kept of it are not counted.", 200, "ratio",
         [ours("changes", ASKED, ""), freefem("changes")]
         + with_gmsh("changes"),
         reference=("changes", 1e-5), floor="changes"),
    Task(5, "A rack of 48 coins", "Four columns of twelve between two sheets; "
         "the mean of each coin counts too.", 10, "ratio",
         [ours("rack", ASKED, "with its error bars, not knowing the answer"),
          ours("rack_plain", COARSE, "one mesh, matched", False), freefem("rack")]
         + with_gmsh("rack"),
         reference=("rack", 1e-4), check_fineness=6, floor="rack"),
    Task(6, "Large meshes", "The coin on meshes that are there already: assembled, "
         "solved, the figures read off.", 1.5, "flat",
         [ours("large", SIZES, ""), freefem("large", SIZES)]
         + with_gmsh("large"), floor="large", sizes=SIZES),
    Task(7, "Whole program", "From the start of the program to its written "
         "files: of ours all pictures, tables and the page, of peers the "
         "field and a table of the surface at 0.1 %.", 0.25, "seconds",
         [freefem("files")] + with_gmsh("files")),
]
# What thinspot solves in task 7, and the time where the geometry is known.
WHOLE_CASE = "token_one_sheet"
WHOLE_GOAL_KNOWN = 0.1


def task(number):
    return next(t for t in TASKS if t.number == number)
