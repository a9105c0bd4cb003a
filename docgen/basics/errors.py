"""The errors that definition and harness find, by name: what each means, why it matters and how to remedy it."""

from __future__ import annotations

from functools import partial

from docgen.basics.findings import FORM, PRACTICE, Kind, Level

# An error is a rule of the form, where it names no other source.
_error = partial(Kind, level=Level.ERROR, source=FORM)

ERRORS = (
    _error(
        name="file",
        stands_on="file",
        meaning="A file can't be read, is over 1 MB or is not UTF-8.",
        when="A file can't be opened, is no file, is over 1 MB or is not UTF-8 text.",
        why="Half a definition gives a harness with half its wires, so nothing is printed.",
        remedy="See that aircraft.yaml and harness.yaml are in the folder, and save them as plain text in UTF-8.",
    ),
    _error(
        name="syntax",
        stands_on="file",
        meaning="The text is not the plain YAML that is read here.",
        when="The text is not YAML, or it uses anchors, aliases, tags, merges, a second document, values nested over "
        "20 deep, or characters that can't stand in a text.",
        why="A slip of indentation can hang a plug on the wrong servo without a word. What plain lists need is read, "
        "and nothing cleverer.",
        remedy="Look at this line and the one before: indentation by blanks, a blank after the colon as in "
        "`length: 235 mm`, quotes and brackets in pairs. Write values out instead of pointing to them.",
        source="The grammar is YAML 1.1; what is refused of it is a rule of the form, no source.",
    ),
    _error(
        name="key",
        stands_on="any entry",
        meaning="A key is unknown or stands twice.",
        when="A key is none of those known where it stands, or stands twice in one entry.",
        why="A misspelt `lenght` that was passed over would leave a run unmeasured, and its wires short.",
        remedy="Take the key that the finding offers, like `length: 235 mm`; of two equal ones keep one. Text of your "
        "own goes into `note: bought 2026`.",
    ),
    _error(
        name="missing",
        stands_on="any entry",
        meaning="Something that is needed is not said.",
        when="A key or a part of a value that is needed is not said: a section, a `kind:`, a `place:`, a half's "
        "`reach:`, which port of several.",
        why="What is not said would have to be guessed, and a guessed contact is a surface that moves the wrong way.",
        remedy="Add what the finding names to the entry that it points at, like `reach: 120 mm`, or the port behind "
        "the equipment, `from: receiver 1`.",
    ),
    _error(
        name="unit",
        stands_on="any entry",
        meaning="A quantity lacks its unit or has one of another kind.",
        when="A quantity is a bare number, or its unit is of another kind: `length: 235`, or a length in A.",
        why="235 is millimetres to one builder and something else to the next. The mistake shows when the wire is cut.",
        remedy="Write the unit: `length: 235 mm` or `length: 9.25 in`, `working: 0.6 A`, `capacity: 2600 mAh`, "
        "`full: 8.4 V`, `resistance: 30 mohm`, `heat: 120 °C`, `reserve: 30 %`, `time: 9 min`, `mass: 180 g`.",
    ),
    _error(
        name="value",
        stands_on="any entry",
        meaning="A value can't be what it says.",
        when="A value is empty, out of bounds, no number, has a comma in its number, is none of the words allowed "
        "there, or two entries contradict each other.",
        why="A slip of the keyboard, 2.6 m for 260 mm, would go into every cut length that hangs on it.",
        remedy="Write it as the finding shows: a point, not a comma, `diameter: 1.6 mm`; one of the words, "
        "`edges: sharp`; yes or no, `isolates: yes`. Delete a key that has nothing to say.",
    ),
    _error(
        name="name",
        stands_on="any entry",
        meaning="A name is unknown or ill-formed.",
        when="A name holds something else than lower-case letters, digits and hyphens, or is over 100 characters; "
        "an assembly or a revision can be no folder on every system, as `con`; two things share one; or it is used "
        "where no entry, port or contact has it.",
        why="A circuit to a port that is not there would be a plug that fits nowhere, or fits the wrong one.",
        remedy="Take the name that the finding offers, like `place: radio-tray`. Capitals and blanks belong into a "
        "label, `label: AIL L`.",
    ),
    _error(
        name="side",
        stands_on="any entry",
        meaning="<side> stands where no entry is made twice.",
        when="`<side>` stands where nothing is made twice: entries whose name holds it are, and items of a list "
        "that hold it anywhere.",
        why="It would be printed as it is, or make a left wing without a right one.",
        remedy="Put it into the entry's name too, or name the side, `place: left-root`. Inside such an entry a value "
        "may differ by side: `channel: {left: 1, right: 2}`.",
    ),
    _error(
        name="route",
        stands_on="circuit",
        meaning="A run is missing between the ends of a lead.",
        when="In one assembly runs lead to both ends of a lead and no chain of `runs:` from one to the other, or the "
        "route does not come by the places in `by:` in their order. Where no run leads to one of them yet, the lead is "
        "`unmeasured`.",
        why="Without a route there is no length, and a wire cut by eye is the one cut short.",
        remedy="Add the run that is missing, `between: [radio-tray, tail-post]` and `length: 1140 mm`; or remedy "
        "`by: [belly]`.",
    ),
    _error(
        name="through",
        stands_on="circuit",
        meaning="A disconnect is missing on the way or out of place.",
        when="The ends of a circuit lie in different assemblies and no disconnect of `through:` joins them, or one "
        "is named twice, or where it does not lie on the way. None is ever picked for you.",
        why="A wire with no joint at the wing root ties the wing to the fuselage; one too many is a joint that is "
        "not there.",
        remedy="Name the disconnects in the order in which the circuit passes them from its `from:` on, "
        "`through: [left-root]`.",
    ),
    _error(
        name="contacts",
        stands_on="disconnect",
        meaning="Contacts are too few or pinned wrongly.",
        when="A shell has fewer contacts than the circuits through it need, or `contacts:` of a circuit name too "
        "many or too few, one that is not there or taken, one at a disconnect that it does not pass, or others than "
        "a plug's roles.",
        why="Two wires can't share a hole, and a pin-out that is wrong on paper is wrong in the wing plug.",
        remedy="Choose a larger `shell:`, share poles with `commons:`, or pin one contact for each wire in the order "
        "of its roles, `contacts: {left-root: [4, 5, 6]}`. Unpinned, they are given in order.",
    ),
    _error(
        name="mate",
        stands_on="circuit",
        meaning="Two halves or plugs can't be mated.",
        when="Both halves of a disconnect carry pins, or both sockets; or a circuit plugs straight in with two "
        "different plugs, or two of one gender.",
        why="It shows on the bench, when both halves are crimped and neither goes into the other.",
        remedy="Pins on one half, sockets on the other, `contacts: pins`; or cut a lead with the right plugs in "
        "between, `lead: servo-22`; or say what a port has, `contacts: sockets`.",
    ),
    _error(
        name="role",
        stands_on="circuit",
        meaning="A lead lacks what the other side has.",
        when="A lead has a wire that the plug, the next segment or a common at the joint lacks; `omit:` names one "
        "that is not there; or a circuit brings only one side of a joint its positive, negative or signal.",
        why="A signal wire that ends at the wing joint is a servo that never moves. One in the wrong hole may put "
        "the pack on it.",
        remedy="Choose leads with the same roles on both sides, `lead: servo-22`; leave a wire out, "
        "`omit: [positive]`; or let it come from a common at the joint, by its `circuits: [left-flap]`.",
    ),
    _error(
        name="circle",
        stands_on="circuit",
        meaning="A supply feeds itself.",
        when="Followed from load to supply, feeds lead back to where they began. `fed_by:` narrows which ports feed.",
        why="Currents and volts have no answer in a circle; in the aircraft a regulator pushes into its own input, "
        "or two units back-feed each other.",
        remedy="Leave the positive out of one lead of the circle, `omit: [positive]`, or name the ports that really "
        "feed, `fed_by: [BATT]`.",
        source=PRACTICE,
    ),
    _error(
        name="unfed",
        stands_on="circuit",
        meaning="A circuit with a positive has no battery behind it.",
        when="A circuit with a positive, or whose lead says `reverses: yes` or `supplies: yes`, begins at equipment "
        "that no battery feeds.",
        why="The servo is wired, labelled and rung out, and stays dead at the first power-up.",
        remedy="Add the circuit from the pack, `from: pack` and `to: receiver BATT`, begin this one where there is "
        "supply, or correct `fed_by: [BATT]`.",
        source=PRACTICE,
    ),
    _error(
        name="supplies",
        stands_on="common",
        meaning="A positive is shared by several supplies.",
        when="Circuits that hang on different batteries share a common with `role: positive`.",
        why="Two packs joined by plain wire charge each other, with no switch between them. Lithium packs catch fire "
        "so.",
        remedy="Give each supply a common of its own, each with its own `contacts: [3, 4]` and "
        "`circuits: [left-aileron]`. A shared negative is the caution `joined-supplies`.",
        source=PRACTICE,
    ),
    _error(
        name="character",
        stands_on="any entry",
        meaning="A character can't be printed, or is not in the typeface.",
        when="A text, note or reason holds a character that the typeface lacks, one that shows nothing but controls "
        "or turns what stands around it, or an accent on a letter that is not one character with it.",
        why="A label with an empty box where a letter should be leads to the wrong plug.",
        remedy="Write it in other characters, like `label: AIL L`; letters with accents, the degree sign and µ are "
        "there.",
        source="Printed is what the typeface has. Common practice, no source.",
    ),
)
