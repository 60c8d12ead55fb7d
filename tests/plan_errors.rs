//! Broken plans, made by editing the text of the examples: each problem names its field, the value as written, its
//! line, and what would be right; independent ones come at once.

use raisedbody::Error;
use raisedbody::error::Placed;
use raisedbody::plan::Plan;
use rstest::rstest;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");

/// Single quotes for double ones: the tables below read better with them.
fn quoted(text: &str) -> String {
    text.replace('\'', "\"")
}

/// The text with one passage replaced.
fn edited(text: &str, from: &str, to: &str) -> String {
    let (from, to) = (&quoted(from), &quoted(to));
    assert!(text.contains(from), "the example no longer has: {from}");
    text.replacen(from, to, 1)
}

fn error(text: &str) -> Error {
    Plan::from_text(text, ".".as_ref()).expect_err("this plan is broken")
}

fn problems(text: &str) -> Vec<Placed> {
    match error(text) {
        Error::Input(placed) => placed,
        other => panic!("{other}"),
    }
}

/// Number of the line, from 1, that a passage stands on.
fn line_of(text: &str, passage: &str) -> usize {
    text[..text.find(&quoted(passage)).unwrap()].matches('\n').count() + 1
}

// The one problem that an edit makes: base, from, to; then path, value as written, words.
#[rstest]
// Quantities.
#[case(LIBRARY, "height = '400 mm'", "height = '400 kg'", "raise.height", "400 kg", "'kg' is no unit of length")]
#[case(LIBRARY, "'8.05 m'", "'8,05 m'", "vehicle.body_length", "8,05 m", "no comma")]
#[case(
    LIBRARY,
    "pitch = '4 1/4 in'",
    "pitch = 108",
    "fastening.pitch",
    "108",
    "108 has no unit; write a length as text"
)]
#[case(LIBRARY, "speed = '75 mph'", "speed = '75 kg'", "service.speed", "75 kg", "write one of m/s")]
#[case(LIBRARY, "mass = '780 kg'", "mass = '-780 kg'", "fit_out[0].mass", "-780 kg", "allowed: 0 kg to 20000 kg")]
#[case(LIBRARY, "y = '0.95 m'", "y = '9.5 m'", "fit_out[0].y", "9.5 m", "out of range")]
// Sizes no bus has.
#[case(LIBRARY, "height = '400 mm'", "height = '-400 mm'", "raise.height", "-400 mm", "allowed: 25 mm to 1500 mm")]
#[case(LIBRARY, "height = '400 mm'", "height = '3 m'", "raise.height", "3 m", "allowed: 25 mm to 1500 mm")]
#[case(LIBRARY, "'8.05 m'", "'90 m'", "vehicle.body_length", "90 m", "allowed: 2000 mm to 20000 mm")]
#[case(LIBRARY, "track = '1.95 m'", "track = '2.6 m'", "vehicle.track", "2.6 m", "wider than the body at 2440 mm")]
#[case(LIBRARY, "'5.28 m'", "'9 m'", "vehicle.wheelbase", "9 m", "front axle stands")]
#[case(WORKSHOP, "windows = 7", "windows = 0", "survey.windows", "0", "allowed: 1 to 30")]
#[case(WORKSHOP, "windows = 7", "windows = -7", "survey.windows", "-7", "allowed: 1 to 30")]
#[case(WORKSHOP, "windows = 7", "windows = 'seven'", "survey.windows", "seven", "not a whole number")]
#[case(WORKSHOP, "windows = 7", "windows = 7.5", "survey.windows", "7.5", "not a whole number")]
// Posts and windows.
#[case(LIBRARY, "'54 7/16 in'", "'40 in'", "survey.last_post_to_front", "40 in", "do not close on the body length by")]
#[case(LIBRARY, "window = 9, ", "window = 10, ", "survey.exceptions[0].window", "10", "1 to 9, counted from the rear")]
#[case(
    LIBRARY,
    "spacing = '24 in' }",
    "spacing = '24 in' }, { window = 9, spacing = '28 in' }",
    "survey.exceptions[1].window",
    "9",
    "named twice"
)]
#[case(WORKSHOP, "windows_kept = [2, 3,", "windows_kept = [2, 2,", "raise.windows_kept[1]", "2", "named twice")]
#[case(
    WORKSHOP,
    "windows_kept = [2, 3,",
    "windows_kept = [2, 9,",
    "raise.windows_kept[1]",
    "9",
    "1 to 7, from the rear"
)]
#[case(
    WORKSHOP,
    "post_spacing = '711 mm'",
    "post_spacing = '1 m'",
    "survey.post_spacing",
    "7 windows end at 7400 mm",
    "only 6900 mm long"
)]
// Heights.
#[case(
    LIBRARY,
    "'2.28 m'",
    "'1.60 m'",
    "survey.window_top",
    "1.60 m",
    "must lie above survey.window_bottom at 1680 mm"
)]
#[case(LIBRARY, "'2.90 m'", "'3.10 m'", "vehicle.overall_height", "3.02 m", "must lie above survey.crown at 3100 mm")]
#[case(
    LIBRARY,
    "rub_rail = '1.50 m'",
    "rub_rail = '1.70 m'",
    "survey.rub_rail",
    "1.70 m",
    "below survey.window_bottom"
)]
#[case(LIBRARY, "'1.83 m'", "'2.05 m'", "survey.inside_height", "2.05 m", "reach 2960 mm")]
// The raise.
#[case(LIBRARY, "cut = '2.00 m'", "cut = '2.60 m'", "raise.cut", "2.60 m", "drip rail at 2500 mm")]
#[case(LIBRARY, "cut = '2.00 m'", "cut = '1.5 m'", "raise.cut", "1.5 m", "window bottom at 1680 mm")]
#[case(
    LIBRARY,
    "headroom =",
    "windows_kept = [4]\nheadroom =",
    "raise.windows_kept",
    "4",
    "passes through this window"
)]
#[case(
    WORKSHOP,
    "headroom =",
    "overlap = '150 mm'\nheadroom =",
    "raise.overlap",
    "150 mm",
    "above the cut is only 140 mm"
)]
#[case(
    LIBRARY,
    "ends = 'whole roof'",
    "ends = 'whole roof'\nfirst_post = 2",
    "raise.ends",
    "whole roof",
    "posts 2 to 10"
)]
#[case(LIBRARY, "ends = 'whole roof'", "ends = 'whole rof'", "raise.ends", "whole rof", "did you mean 'whole roof'")]
#[case(
    LIBRARY,
    "ends = 'whole roof'",
    "ends = 'whole roof'\nslope_run = '3 ft'",
    "raise.slope_run",
    "3 ft",
    "leave it out"
)]
#[case(WORKSHOP, "last_post = 8", "last_post = 9", "raise.last_post", "9", "up to 8")]
// Names of the catalogue.
#[case(LIBRARY, "gauge = 18", "gauge = 9", "skin.gauge", "9", "did you mean '10'")]
#[case(LIBRARY, "'A40'", "'A4O'", "skin.coating", "A4O", "did you mean 'A40'")]
#[case(LIBRARY, "'SS33'", "'SS-33'", "skin.grade", "SS-33", "did you mean 'SS33'")]
#[case(WORKSHOP, "'ISO 15976'", "'ISO 19576'", "fastening.product", "ISO 19576", "did you mean 'ISO 15976'")]
#[case(LIBRARY, "'US-CO'", "'US-C0'", "service.places[0]", "US-C0", "did you mean 'US-CO'")]
#[case(WORKSHOP, "'40x40x2 tube'", "'40x40 tube'", "survey.post.section", "40x40 tube", "did you mean '40x40x2 tube'")]
#[case(
    WORKSHOP,
    "salted = false",
    "salted = false\ncorrosivity = { upper = 'C9' }",
    "service.corrosivity.upper",
    "C9",
    "unknown corrosivity category"
)]
#[case(LIBRARY, "'SS33'", "'304'", "skin.coating", "A40", "goes on carbon steel")]
// Sheet and rivet.
#[case(LIBRARY, "gauge = 18", "gauge = 18\nthickness = '0.05 in'", "skin.thickness", "0.05 in", "give one of them")]
#[case(LIBRARY, "gauge = 18", "thickness = '1/2 in'", "skin.thickness", "1/2 in", "0.2 to 6 mm")]
#[case(
    LIBRARY,
    "gauge = 18",
    "gauge = 18\nfy = '60 ksi'\nfu = '45 ksi'",
    "skin.fy",
    "60 ksi",
    "cannot exceed the tensile"
)]
#[case(LIBRARY, "'10 ft'", "'28 in'", "skin.largest_sheet.length", "28 in", "window 1 spans 711 mm")]
#[case(LIBRARY, "hole = '17/64 in'", "hole = '15/64 in'", "fastening.hole", "15/64 in", "out of range")]
#[case(WORKSHOP, "'6.4 mm'", "'1/4 in'", "fastening.product", "6.35 mm", "unknown diameter of ISO 15976")]
// Prices.
#[case(LIBRARY, "'0.74 USD'", "'0.74 EUR'", "prices.rivet", "0.74 EUR", "use one currency")]
#[case(LIBRARY, "'85 USD/h'", "'-85 USD/h'", "prices.labour", "-85 USD/h", "nought or more")]
#[case(LIBRARY, "'85 USD/h'", "'85 USD/kg'", "prices.labour", "85 USD/kg", "this price is per h")]
#[case(LIBRARY, "'2.35 USD/kg'", "'2.35 USD/stone'", "prices.sheet", "2.35 USD/stone", "no unit of price")]
#[case(LIBRARY, "'15 %'", "'-15 %'", "prices.margin", "-15 %", "0 to 500 %")]
// Form.
#[case(LIBRARY, "salted = true", "salted = 'yes'", "service.salted", "yes", "not true or false")]
#[case(
    LIBRARY,
    "{ front = '2950 kg', rear = '4450 kg' }",
    "'7400 kg'",
    "vehicle.axle_weights",
    "7400 kg",
    "a table of entries"
)]
fn one_problem(
    #[case] base: &str,
    #[case] from: &str,
    #[case] to: &str,
    #[case] path: &str,
    #[case] value: &str,
    #[case] words: &str,
) {
    let text = edited(base, from, to);
    let found = problems(&text);
    assert_eq!(found.iter().map(|p| p.problem.path()).collect::<Vec<_>>(), [path], "{found:#?}");
    let (problem, place) = (&found[0].problem, found[0].place);
    assert_eq!(problem.value(), Some(value), "{problem}");
    assert!(problem.to_string().contains(&quoted(words)), "{problem}");
    assert!(problem.to_string().starts_with(path), "{problem}");
    // The line of the field itself: the written value stands on it.
    let line = text.lines().nth(place.unwrap().0 - 1).unwrap();
    let key = path.rsplit('.').next().unwrap().split('[').next().unwrap();
    assert!(line.contains(key) || line.contains(value), "line {place:?} is {line}");
    assert!(found[0].to_string().ends_with(&format!("(line {}, column {})", place.unwrap().0, place.unwrap().1)));
}

// What is missing is told with what to write, at the table it belongs in.
#[rstest]
#[case(LIBRARY, "floor = '910 mm'\n", "", "survey.floor", "[survey]", "write floor = '4 1/4 in'")]
#[case(LIBRARY, ", rear = '4450 kg'", "", "vehicle.axle_weights.rear", "axle_weights", "write rear = '180 kg'")]
#[case(LIBRARY, "hole = '17/64 in'\n", "", "fastening.hole", "[fastening]", "write the drilled hole")]
#[case(LIBRARY, "gauge = 18\n", "", "skin.gauge", "[skin]", "write gauge = 18 or thickness")]
#[case(WORKSHOP, "slope_run = '350 mm'\n", "", "raise.slope_run", "[raise]", "a sloped end needs its run")]
#[case(
    WORKSHOP,
    "coating = 'G90'",
    "coating = 'G90'\nlower_edge = 'rub rail'",
    "survey.rub_rail",
    "[survey]",
    "write its height"
)]
#[case(LIBRARY, "flange = '3/4 in', ", "", "survey.post.flange", "post = { shape", "a hat has flanges")]
#[case(LIBRARY, "wall = '0.0598 in' }", "}", "survey.post.wall", "post = { shape", "measure it, or name a section")]
#[case(LIBRARY, "name = 'seats'\n", "", "removed[0].name", "[[removed]]", "write name = ")]
#[case(LIBRARY, "ends = 'whole roof'\n", "", "raise.ends", "[raise]", "write ends = 'whole roof' or 'stepped' or")]
#[case(
    LIBRARY,
    "largest_sheet = { length = '10 ft', height = '4 ft' }\n",
    "",
    "skin.largest_sheet",
    "[skin]",
    "with length, height"
)]
fn missing(
    #[case] base: &str,
    #[case] from: &str,
    #[case] to: &str,
    #[case] path: &str,
    #[case] place: &str,
    #[case] fix: &str,
) {
    let text = edited(base, from, to).replace(", }", " }");
    let found = problems(&text);
    assert_eq!(found.iter().map(|p| p.problem.path()).collect::<Vec<_>>(), [path], "{found:#?}");
    let message = found[0].problem.to_string();
    assert!(message.contains("missing; ") && message.contains(&quoted(fix)), "{message}");
    assert_eq!((found[0].problem.value(), found[0].place.unwrap().0), (None, line_of(&text, place)));
}

#[rstest]
#[case("post_spacing = '28 in'", "post_spacin = '28 in'", "survey.post_spacin", Some("post_spacing"))]
#[case("[fastening]", "[fastenings]", "fastenings", Some("fastening"))]
#[case("salted = true", "salted = true\nxyzzy = 1", "service.xyzzy", None)]
fn unknown_keys(#[case] from: &str, #[case] to: &str, #[case] path: &str, #[case] nearest: Option<&str>) {
    let text = edited(LIBRARY, from, to);
    let found = problems(&text);
    let unknown = found.iter().find(|p| p.problem.path() == path).unwrap();
    let expected = nearest.map_or_else(|| "no such entry".to_owned(), |n| format!("did you mean \"{n}\""));
    assert!(unknown.problem.to_string().contains(&expected), "{}", unknown.problem);
    let key = path.rsplit('.').next().unwrap();
    assert_eq!(
        unknown.place.unwrap().0,
        line_of(&text, &format!("\n{}{key}", if to.starts_with('[') { "[" } else { "" })) + 1
    );
}

#[test]
fn independent_problems_come_at_once() {
    let mut text = LIBRARY.to_owned();
    for (from, to) in [
        ("\"A40\"", "\"A4O\""),
        ("cut = \"2.00 m\"", "cut = \"2.60 m\""),
        ("\"US-CO\"", "\"US-C0\""),
        ("\"0.74 USD\"", "\"0.74 EUR\""),
        ("mass = \"780 kg\"", "mass = \"-780 kg\""),
        ("track = \"1.95 m\"", "track = \"2.6 m\""),
        ("hole = \"17/64 in\"\n", ""),
    ] {
        text = edited(&text, from, to);
    }
    let found = problems(&text);
    let paths: Vec<&str> = found.iter().map(|p| p.problem.path()).collect();
    // In the order of the lines.
    let expected = [
        "vehicle.track",
        "raise.cut",
        "skin.coating",
        "fastening.hole",
        "service.places[0]",
        "fit_out[0].mass",
        "prices.rivet",
    ];
    assert_eq!(paths, expected);
    let message = error(&text).to_string();
    assert!(message.starts_with("7 problems") && message.contains("raise.cut"), "{message}");
}

#[test]
fn problems_of_form_come_at_once() {
    let mut text = edited(LIBRARY, "pitch = \"4 1/4 in\"", "pitch = 108");
    text = edited(&text, "floor = \"910 mm\"\n", "");
    text = edited(&text, "salted = true", "salt = true");
    let paths: Vec<String> = problems(&text).iter().map(|p| p.problem.path().to_owned()).collect();
    assert_eq!(paths, ["survey.floor", "fastening.pitch", "service.salt"]);
}

// An item of a list that cannot be read hides nothing of the other sections.
#[test]
fn a_broken_item_hides_no_other_section() {
    let mut text = edited(LIBRARY, "mass = \"780 kg\"", "mass = 780");
    text = edited(&text, "cut = \"2.00 m\"", "cut = \"2.60 m\"");
    let paths: Vec<String> = problems(&text).iter().map(|p| p.problem.path().to_owned()).collect();
    assert_eq!(paths, ["raise.cut", "fit_out[0].mass"]);
}

#[rstest]
#[case("height = '400 mm'", "height = '400 mm", 1)]
#[case("[raise]", "[raise", 1)]
#[case("[raise]", "[skin]", 0)]
fn broken_toml_names_line_and_column(#[case] from: &str, #[case] to: &str, #[case] on_the_line: usize) {
    let text = edited(LIBRARY, from, to);
    let Error::Syntax { line, column, message } = error(&text) else { panic!("not a syntax error") };
    assert!(column >= 1 && !message.is_empty());
    if on_the_line == 1 {
        assert_eq!(line, line_of(&text, to));
    } else {
        // A table written twice is noticed at either.
        assert!(text.lines().nth(line - 1).unwrap().contains("skin"));
    }
    assert!(error(&text).to_string().contains(&format!("line {line}, column {column}")));
}

#[test]
fn a_newer_schema_asks_for_a_newer_version() {
    let text = edited(LIBRARY, "schema = 1", "schema = 2\nfuture = true");
    assert!(matches!(error(&text), Error::NewerSchema { found: 2, supported: 1 }));
    assert!(error(&text).to_string().contains("Install a newer version"));
    for older in ["schema = 0", "schema = -1", "schema = \"1\""] {
        assert_eq!(problems(&edited(LIBRARY, "schema = 1", older))[0].problem.path(), "schema");
    }
}

#[test]
fn files_that_cannot_be_read_are_named() {
    for error in [
        Plan::read("examples/no_such_plan.toml").unwrap_err(),
        error(&(LIBRARY.to_owned() + "[catalogue]\nfiles = [\"no_such_rows.toml\"]")),
    ] {
        assert!(matches!(&error, Error::File { path, .. } if path.to_string_lossy().contains("no_such")), "{error}");
    }
}
