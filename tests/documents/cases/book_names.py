"""Names of a book: twice, unknown."""

from tests.documents.texts import BOOK, case

TOTAL = "{measure: total_length, max: 120 m, page: 7}"
NEED = "{measure: last_joint_to_unit, max: 15 m}"
GROUP = "    - {modules: [outdoor 16], index: 16, indoor_count: {max: 8}, connection_ratio: {min: 50 %, max: 130 %}}\n"
SMALLEST = "model: cassette 3.6, kind: cassette, index: 3.6, cooling: 3.6 kW, sensible: 2.7 kW, heating: 4.0 kW"
MODELS = BOOK[BOOK.index("  models:\n") : BOOK.index("\ntubes:")]

CASES = (
    case(
        "model twice",
        f"    - {{{SMALLEST}, gas: 12.7 mm, liquid: 6.35 mm}}\n",
        f"    - {{{SMALLEST}, gas: 12.7 mm, liquid: 6.35 mm}}\n"
        f"    - {{{SMALLEST.replace('model: ', 'model: «')}, gas: 12.7 mm, liquid: 6.35 mm}}\n",
        (
            "indoor.models[1].model",
            "cassette 3.6",
            "the name 'cassette 3.6' is used twice, first in indoor.models[0]",
            "each name once",
        ),
    ),
    case(
        "group twice",
        GROUP,
        GROUP + GROUP.replace("[outdoor", "«[outdoor"),
        (
            "outdoor.groups[1].modules",
            "a list",
            "the modules outdoor 16 form a group already, outdoor.groups[0]",
            "each combination of modules once",
        ),
    ),
    case(
        "name of a group twice",
        GROUP,
        GROUP.replace("{modules", "{id: a, modules")
        + GROUP.replace("{modules: [outdoor 16]", "{id: «a, modules: [outdoor 16, outdoor 16]"),
        (
            "outdoor.groups[1].id",
            "a",
            "the name 'a' is used twice, first in outdoor.groups[0]",
            "each name once",
        ),
    ),
    case(
        "module twice",
        "factory_charge: 4.2 kg, gas: 22.22 mm, liquid: 9.52 mm}\n",
        "factory_charge: 4.2 kg, gas: 22.22 mm, liquid: 9.52 mm}\n"
        "    - {model: «outdoor 16, index: 8, cooling: 8 kW, heating: 9 kW, factory_charge: 2 kg}\n",
        (
            "outdoor.modules[1].model",
            "outdoor 16",
            "the name 'outdoor 16' is used twice, first in outdoor.modules[0]",
            "each name once",
        ),
    ),
    case(
        "size action twice",
        "      steps: 1\n",
        "      steps: 1\n    - {id: «long-main, runs: main, lines: [gas]}\n",
        (
            "sizing.actions[1].id",
            "long-main",
            "the name 'long-main' is used twice, first in sizing.actions[0]",
            "each name once",
        ),
    ),
    case(
        "unknown module in a group",
        "{modules: [outdoor 16], index",
        "{modules: [«outdoor 61], index",
        (
            "outdoor.groups[0].modules[0]",
            "outdoor 61",
            "there is no outdoor module 'outdoor 61' in this book",
            "'outdoor 16'",
        ),
    ),
    case(
        "charge of an unknown model",
        "indoor: {cassette 7.1: 0.1 kg}",
        "indoor: {cassette 7.2: «0.1 kg}",
        (
            "charge.indoor.cassette 7.2",
            "0.1 kg",
            "there is no indoor model or kind 'cassette 7.2' in this book",
            "'cassette 7.1'",
        ),
    ),
    case(
        "charge of an unknown group",
        "group: {outdoor 16: 0.4 kg}",
        "group: {outdoor 61: «0.4 kg}",
        (
            "charge.group.outdoor 61",
            "0.4 kg",
            "there is no outdoor group or module 'outdoor 61' in this book",
            "'outdoor 16'",
        ),
    ),
    case(
        "filter for an unknown kind",
        "{measure: farthest_actual, max: 70 m, page: 7}",
        "{measure: farthest_actual, where: {kind: [«casette]}, max: 70 m, page: 7}",
        ("limits[0].where.kind[0]", "casette", "there is no kind of indoor unit 'casette' in this book", "'cassette'"),
    ),
    case(
        "need of an unknown size action",
        NEED,
        "{action: «long-main}",
        (
            "limits[3].relaxed[0].needs[0].action",
            "long-main",
            "there is no elective size action 'long-main' in this book",
            "none: the book has no elective size action",
        ),
    ),
    case(
        "id with a colon",
        "id: minimal",
        "id: «a:b",
        (
            "id",
            "a:b",
            "the id 'a:b' holds ':', which separates the parts of a result's name",
            "letters, digits, spaces, dots, dashes and the like, without / : @ [ ]",
        ),
    ),
    case(
        "no group",
        "  groups:\n" + GROUP,
        "  groups: «[]\n",
        (
            "outdoor.groups",
            "a list",
            "the book has no outdoor group",
            "at least one; a single module is one as well",
        ),
    ),
    case(
        "no module",
        "  modules:\n    - {model: outdoor 16, index: 16, cooling: 16 kW, heating: 18 kW, factory_charge: 4.2 kg, "
        "gas: 22.22 mm, liquid: 9.52 mm}\n",
        "  modules: «[]\n",
        ("outdoor.modules", "a list", "the book has no outdoor module", "at least one"),
    ),
    case(
        "group of no module",
        "{modules: [outdoor 16], index",
        "{modules: «[], id: outdoor 16, index",
        ("outdoor.groups[0].modules", "a list", "the group has no module", "at least one"),
    ),
    case(
        "no indoor models",
        MODELS,
        "  models: «[]\n",
        ("indoor.models", "a list", "the book has no indoor model", "at least one"),
    ),
)
