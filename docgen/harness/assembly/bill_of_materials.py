"""Take a harness; return what else to get out: sample wire, contacts, housings, retainers, tubes, grommets, clips."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator

from docgen.basics.frozen import frozen
from docgen.harness.assembly.clips import clips_of, strain_reliefs_of
from docgen.harness.assembly.samples import samples_of
from docgen.harness.assembly.soldered import soldered_tubes
from docgen.harness.assembly.splices import branch_splices, tail_splices
from docgen.harness.bundling.sleeves import collar_need, collar_tubes, sleeves_of
from docgen.harness.model.circuits import End
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import TubePart

# Common practice, no source: contacts to spare; tube over each end of a braid, a splice, and a soldered contact.
_SPARE = 0.1
COLLAR_MM, SPLICE_MM, CONTACT_MM = 20.0, 25.0, 15.0


@frozen
class Contacts:
    """Contacts of one gender of a plug or shell: those fitted, and those crimped on samples."""

    connector: str
    gender: str
    fitted: int
    samples: int

    @property
    def count(self) -> int:
        """Return how many to get out, with a tenth to spare."""
        return math.ceil((self.fitted + self.samples) * (1 + _SPARE) - 1e-9)


@frozen
class BillOfMaterials:
    """All besides what leads, sleeves and labels are cut from: how many of each.

    Sample wire is counted by wire, housings by connector and gender of their contacts, retainers by connector,
    grommets by what they are wide inside at least [mm]; tubes by name, or by none where none of the parts list fits.
    Clips along runs that are not measured, so many, are not counted.
    """

    sample_wires: dict[str, int]
    contacts: tuple[Contacts, ...]
    housings: dict[tuple[str, str], int]
    retainers: dict[str, int]
    collars: dict[str | None, int]
    splice_tubes: dict[str | None, int]
    contact_tubes: dict[str | None, int]
    grommets: dict[int, int]
    clips: dict[int, int]
    strain_reliefs: dict[int, int]
    clips_unmeasured: int
    clip_every_mm: float


def bill_of_materials(harness: Harness) -> BillOfMaterials:
    """Return everything to get out."""
    dressed = [b.diameter_mm for b in harness.bundles if b.leads and harness.runs[b.run].dressed == "grommet"]
    splices = [*branch_splices(harness), *tail_splices(harness)]
    tubes = collar_tubes(harness.bundles, harness.tubes)
    collars = [tubes.get(collar_need(sleeve)) for sleeve in sleeves_of(harness.bundles)]
    return BillOfMaterials(
        sample_wires=Counter(sample.wire for sample in samples_of(harness)),
        contacts=_contacts(harness),
        housings=_housings(harness),
        retainers=_retainers(harness),
        collars={name: 2 * count for name, count in _in_order(harness, collars).items()},
        splice_tubes=_in_order(harness, [splice.tube for splice in splices]),
        contact_tubes=_in_order(harness, soldered_tubes(harness)),
        grommets=dict(sorted(Counter(math.ceil(diameter_mm) for diameter_mm in dressed).items())),
        clips=clips_of(harness),
        strain_reliefs=strain_reliefs_of(harness),
        clips_unmeasured=sum(harness.runs[b.run].length_mm is None for b in harness.bundles if b.leads),
        clip_every_mm=harness.clip_every_mm,
    )


def _plugs(harness: Harness) -> Iterator[End]:
    """Walk the ends of cut leads that get a plug."""
    for lead in harness.cut_leads():
        yield from (end for end in lead.ends if end.is_port)


def _contacts(harness: Harness) -> tuple[Contacts, ...]:
    fitted: Counter[tuple[str, str]] = Counter()
    for end in _plugs(harness):
        fitted[end.connector.name, end.gender] += len(end.contacts)
    for disconnect, half in harness.halves():
        if not half.came_on:
            used = sum(half.name in use.wires for use in disconnect.uses.values())
            fitted[disconnect.shell.name, half.gender] += used
    samples = Counter((sample.connector, sample.gender) for sample in samples_of(harness))
    every = (Contacts(*key, count, samples[key]) for key, count in sorted(fitted.items()))
    return tuple(contacts for contacts in every if contacts.count)


def _housings(harness: Harness) -> dict[tuple[str, str], int]:
    counts = Counter((end.connector.name, end.gender) for end in _plugs(harness))
    counts.update((joint.shell.name, half.gender) for joint, half in harness.halves() if not half.came_on)
    return dict(sorted(counts.items()))


def _retainers(harness: Harness) -> dict[str, int]:
    """Count mated pairs that want a clip: plugs at own leads, which lie loose, and plain joints at their first half."""
    mated = [end.connector for end in _plugs(harness) if end.own is not None]
    mated += [joint.shell for joint, half in harness.halves() if half == joint.halves[0]]
    return dict(sorted(Counter(connector.name for connector in mated if connector.retainer).items()))


def _in_order(harness: Harness, tubes: Iterable[TubePart | None]) -> dict[str | None, int]:
    """Count tubes by name, in the order of the parts list."""
    counts = Counter(tube.name if tube is not None else None for tube in tubes)
    return {name: counts[name] for name in (*(tube.name for tube in harness.tubes), None) if counts[name]}
