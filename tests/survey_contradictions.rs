//! A survey that contradicts itself says where: each kind of contradiction, made by editing the text of an example, gives
//! the one problem that names its entry, the value as written and what to do. (No published source: laws of sense.)

use raisedbody::Error;
use raisedbody::error::Placed;
use raisedbody::plan::Plan;
use rstest::rstest;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");

/// The library's cross-section as a chain, invented like the rest of it: tucked under at the skirt, upright, leaning in,
/// a round corner, a flat roof.
const CHAIN: &str = "
[survey.outline]
start = { half_width = '1180 mm', height = '450 mm' }
pieces = [
  { to = { half_width = '1220 mm', height = '700 mm' } },
  { to = { half_width = '1220 mm', height = '1680 mm' } },
  { to = { half_width = '1182 mm', height = '2500 mm' } },
  { to = { half_width = '900 mm', height = '2800 mm' }, radius = '320 mm', bulge = 'out' },
  { to = { half_width = '0 mm', height = '2900 mm' }, radius = '4100 mm', bulge = 'out' },
]

[raise]";

const DOOR: &str = "[[survey.features]]
name = 'door'
kind = 'door'
side = 'right'
bottom = '500 mm'
top = '1900 mm'
rear = '7000 mm'
front = '7700 mm'
";

fn quoted(text: &str) -> String {
    text.replace('\'', "\"")
}

fn edited(text: &str, from: &str, to: &str) -> String {
    let (from, to) = (&quoted(from), &quoted(to));
    assert!(text.contains(from), "the base has no: {from}");
    text.replacen(from, to, 1)
}

/// An example, or the library with its outline as a chain, or with a door.
fn base(name: &str) -> String {
    let features = |text: &str| edited(LIBRARY, "[raise]", &format!("{text}\n[raise]"));
    match name {
        "chain" => edited(&edited(LIBRARY, "lean = { inset = '1 1/2 in', drop = '32 in' }\n", ""), "[raise]", CHAIN),
        "door" => features(DOOR),
        "workshop" => WORKSHOP.to_owned(),
        _ => LIBRARY.to_owned(),
    }
}

fn problems(text: &str) -> Vec<Placed> {
    match Plan::from_text(text, ".".as_ref()) {
        Err(Error::Input(problems)) => problems,
        Err(other) => panic!("{other}"),
        Ok(_) => panic!("this survey contradicts itself"),
    }
}

#[rstest]
#[case("library")]
#[case("chain")]
#[case("door")]
#[case("workshop")]
fn bases_hold(#[case] name: &str) {
    Plan::from_text(&base(name), ".".as_ref()).unwrap().evaluate().unwrap();
}

// Base, from, to; then path, value as written, words.
#[rstest]
// Posts.
#[case::stations_do_not_close(
    "library",
    "'54 7/16 in'",
    "'50 in'",
    "survey.last_post_to_front",
    "50 in",
    "do not close on the body length by +113 mm"
)]
#[case::exception_of_no_window(
    "library",
    "window = 9, ",
    "window = 11, ",
    "survey.exceptions[0].window",
    "11",
    "1 to 9, counted from the rear"
)]
#[case::exception_twice(
    "library",
    "spacing = '24 in' }",
    "spacing = '24 in' }, { window = 9, spacing = '25 in' }",
    "survey.exceptions[1].window",
    "9",
    "named twice"
)]
#[case::posts_beyond_the_body(
    "workshop",
    "post_spacing = '711 mm'",
    "post_spacing = '950 mm'",
    "survey.post_spacing",
    "7 windows end at 7050 mm",
    "only 6900 mm long; check the window count"
)]
#[case::more_windows_on_one_side(
    "library",
    "[raise]",
    "[survey.right]\nwindows = 8\n\n[raise]",
    "survey.right.windows",
    "8",
    "survey.windows is 9: posts are laid out opposite each other"
)]
#[case::unlike_posts(
    "library",
    "[raise]",
    "[survey.right]\nexceptions = [{ window = 2, spacing = '30 in' }]\n\n[raise]",
    "survey.right.exceptions",
    "post 3 at 1842 mm",
    "it stands at 1791 mm by survey.exceptions, more than the tape's error of 10 mm"
)]
#[case::exception_twice_on_one_side(
    "library",
    "[raise]",
    "[survey.left]\nexceptions = [{ window = 9, spacing = '24 in' }, { window = 9, spacing = '24 in' }]\n\n[raise]",
    "survey.left.exceptions[1].window",
    "9",
    "named twice"
)]
// Heights.
#[case::floor_above_the_windows(
    "workshop",
    "'1.60 m'",
    "'0.85 m'",
    "survey.window_bottom",
    "0.85 m",
    "must lie above survey.floor at 880 mm"
)]
#[case::windows_upside_down(
    "library",
    "'2.28 m'",
    "'1.60 m'",
    "survey.window_top",
    "1.60 m",
    "must lie above survey.window_bottom at 1680 mm"
)]
#[case::drip_rail_below_the_windows(
    "library",
    "'2.50 m'",
    "'2.20 m'",
    "survey.drip_rail",
    "2.20 m",
    "must lie above survey.window_top at 2280 mm"
)]
#[case::crown_below_the_drip_rail(
    "library",
    "drip_rail = '2.50 m'",
    "drip_rail = '2.95 m'",
    "survey.crown",
    "2.90 m",
    "must lie above survey.drip_rail at 2950 mm"
)]
#[case::overall_below_the_crown(
    "library",
    "'3.02 m'",
    "'2.80 m'",
    "vehicle.overall_height",
    "2.80 m",
    "must lie above survey.crown at 2900 mm"
)]
#[case::rub_rail_in_the_windows(
    "library",
    "rub_rail = '1.50 m'",
    "rub_rail = '1.70 m'",
    "survey.rub_rail",
    "1.70 m",
    "must lie below survey.window_bottom at 1680 mm"
)]
#[case::ceiling_above_the_roof(
    "library",
    "'1.83 m'",
    "'2.05 m'",
    "survey.inside_height",
    "2.05 m",
    "reach 2960 mm, above the roof's crown at 2900 mm"
)]
#[case::aisle_wider_than_the_body(
    "workshop",
    "body_width = '2.40 m'",
    "body_width = '1.95 m'\n[survey]\naisle = '2 m'",
    "survey.aisle",
    "2 m",
    "wider than the body at 1950 mm"
)]
#[case::unlike_drip_rails(
    "library",
    "[raise]",
    "[survey.left]\ndrip_rail = '2.53 m'\n\n[raise]",
    "survey.left.drip_rail",
    "2.53 m",
    "survey.drip_rail is 2500 mm, more than the tape's error of 10 mm away"
)]
#[case::unlike_windows(
    "library",
    "[raise]",
    "[survey.right]\nwindow_top = '2.2 m'\n\n[raise]",
    "survey.right.window_top",
    "2.2 m",
    "sheets are laid out alike on both sides; tape it again"
)]
#[case::one_rub_rail_in_the_windows(
    "library",
    "[raise]",
    "[survey.right]\nrub_rail = '1.75 m'\n\n[raise]",
    "survey.right.rub_rail",
    "1.75 m",
    "must lie below survey.window_bottom"
)]
#[case::skin_ends_at_unlike_rub_rails(
    "library",
    "lower_edge = 'window bottom'",
    "lower_edge = 'rub rail'\n[survey.left]\nrub_rail = '1.4 m'",
    "survey.left.rub_rail",
    "1.4 m",
    "write skin.lower_edge = 'window bottom', or tape it again"
)]
// Lean.
#[case::lean_closes_the_roof(
    "library",
    "inset = '1 1/2 in', drop = '32 in'",
    "inset = '490 mm', drop = '300 mm'",
    "survey.lean.inset",
    "490 mm",
    "reaches the centre line at 2427 mm, below the drip rail at 2500 mm, and closes the roof"
)]
#[case::one_lean_closes_the_roof(
    "library",
    "[raise]",
    "[survey.right]\nlean = { inset = '19 in', drop = '11 in' }\n\n[raise]",
    "survey.right.lean.inset",
    "19 in",
    "closes the roof; tape inset and drop again"
)]
#[case::lean_and_chain(
    "chain",
    "exits =",
    "lean = { inset = '38 mm', drop = '82 cm' }\nexits =",
    "survey.lean",
    "{ inset = '38 mm', drop = '82 cm' }",
    "survey.outline has the sides' lean in it; leave one of the two out"
)]
#[case::lean_of_one_side_and_chain(
    "chain",
    "[raise]",
    "[survey.left]\nlean = { inset = '38 mm', drop = '82 cm' }\n\n[raise]",
    "survey.left.lean",
    "{ inset = '38 mm', drop = '82 cm' }",
    "leave one of the two out"
)]
// The chain.
#[case::pieces_do_not_meet(
    "chain",
    "radius = '320 mm',",
    "from = { half_width = '1150 mm', height = '2520 mm' }, radius = '320 mm',",
    "survey.outline.pieces[3].from",
    "1150 mm from the centre line at 2520 mm",
    "ends 1182 mm from the centre line at 2500 mm, 38 mm away, more than the tape's error of 10 mm: the pieces do not meet"
)]
#[case::arc_too_small(
    "chain",
    "'320 mm'",
    "'180 mm'",
    "survey.outline.pieces[3].radius",
    "180 mm",
    "the arc cannot reach: its ends are 412 mm apart, so that the radius is at least 206 mm"
)]
#[case::piece_of_no_length(
    "chain",
    "'1220 mm', height = '1680 mm'",
    "'1220 mm', height = '700 mm'",
    "survey.outline.pieces[1].to",
    "1220 mm from the centre line at 700 mm",
    "ends where it starts; leave it out"
)]
#[case::not_on_the_centre_line(
    "chain",
    "half_width = '0 mm'",
    "half_width = '100 mm'",
    "survey.outline.pieces[4].to.half_width",
    "100 mm",
    "must end on the centre line: tape on to the crown"
)]
#[case::not_at_the_crown(
    "chain",
    "'0 mm', height = '2900 mm'",
    "'0 mm', height = '2870 mm'",
    "survey.outline.pieces[4].to.height",
    "2870 mm",
    "ends -30 mm from survey.crown at 2900 mm, more than the tape's error"
)]
#[case::line_falls_at_the_posts(
    "chain",
    "'1220 mm', height = '1680 mm' } },",
    "'1220 mm', height = '1680 mm' } }, { to = { half_width = '1200 mm', height = '1600 mm' } },",
    "survey.outline.pieces[2].to.height",
    "1600 mm",
    "the posts stand: every piece must rise there"
)]
#[case::level_at_the_posts(
    "chain",
    "'1220 mm', height = '1680 mm' } },",
    "'1220 mm', height = '1680 mm' } }, { to = { half_width = '1200 mm', height = '1680 mm' } },",
    "survey.outline.pieces[2].to.height",
    "1680 mm",
    "every piece must rise there"
)]
#[case::arc_falls_at_the_posts(
    "chain",
    "'1182 mm', height = '2500 mm' } }",
    "'900 mm', height = '2490 mm' }, radius = '430 mm', bulge = 'in' }",
    "survey.outline.pieces[2].radius",
    "430 mm",
    "every piece must rise there"
)]
#[case::chain_crosses_itself(
    "chain",
    "{ to = { half_width = '1220 mm', height = '700 mm' } }",
    "{ to = { half_width = '1190 mm', height = '600 mm' } }, { to = { half_width = '1150 mm', height = '600 mm' } }, { to = { half_width = '1150 mm', height = '520 mm' } }, { to = { half_width = '1220 mm', height = '520 mm' } }, { to = { half_width = '1220 mm', height = '700 mm' } }",
    "survey.outline.pieces[3].to",
    "1220 mm from the centre line at 520 mm",
    "crosses or touches survey.outline.pieces[0]"
)]
#[case::wider_than_the_body(
    "chain",
    "body_width = '2.44 m'",
    "body_width = '2.38 m'",
    "survey.outline",
    "at its widest 1220 mm from the centre line",
    "the body is 2380 mm wide, half of that is 1190 mm, and the tape's error 10 mm"
)]
#[case::begins_above_the_floor(
    "chain",
    "'1180 mm', height = '450 mm' }\npieces = [\n  { to = { half_width = '1220 mm', height = '700 mm' } },",
    "'1220 mm', height = '950 mm' }\npieces = [",
    "survey.outline.start.height",
    "950 mm",
    "must begin at or below the floor at 910 mm"
)]
#[case::over_the_centre_line(
    "chain",
    "'900 mm', height = '2800 mm' }, radius = '320 mm', bulge = 'out' }",
    "'10 mm', height = '2800 mm' } }, { to = { half_width = '10 mm', height = '2850 mm' }, radius = '26 mm', bulge = 'in' }",
    "survey.outline.pieces[4].radius",
    "26 mm",
    "crosses the centre line by 9 mm"
)]
#[case::higher_than_the_crown(
    "chain",
    "'4100 mm'",
    "'950 mm'",
    "survey.outline.pieces[4].radius",
    "950 mm",
    "above the end of the chain at 2900 mm; the crown is the highest point"
)]
#[case::arc_of_neither_side(
    "chain",
    "radius = '320 mm', bulge = 'out'",
    "radius = '320 mm'",
    "survey.outline.pieces[3].bulge",
    "",
    "write bulge = 'out' or 'in'"
)]
#[case::bulge_of_a_line(
    "chain",
    "radius = '320 mm', bulge = 'out'",
    "bulge = 'out'",
    "survey.outline.pieces[3].radius",
    "",
    "only an arc bulges"
)]
// Features.
#[case::door_upside_down(
    "door",
    "top = '1900 mm'",
    "top = '400 mm'",
    "survey.features[0].top",
    "400 mm",
    "must be more than bottom at 500 mm; the two look exchanged"
)]
#[case::door_backwards(
    "door",
    "front = '7700 mm'",
    "front = '6900 mm'",
    "survey.features[0].front",
    "6900 mm",
    "must be more than rear at 7000 mm; the two look exchanged"
)]
#[case::door_ahead_of_the_body(
    "door",
    "front = '7700 mm'",
    "front = '8100 mm'",
    "survey.features[0].front",
    "8100 mm",
    "ahead of the front face of the body at 8050 mm"
)]
#[case::door_behind_the_body(
    "door",
    "rear = '7000 mm'",
    "rear = '-50 mm'",
    "survey.features[0].rear",
    "-50 mm",
    "behind the rear face of the body"
)]
#[case::door_over_the_cut(
    "door",
    "top = '1900 mm'",
    "top = '2350 mm'",
    "survey.features[0].top",
    "2350 mm",
    "the cut at 2000 mm passes through this door, between 0 and 8050 mm from the rear"
)]
#[case::door_at_one_height(
    "door",
    "bottom = '500 mm'\ntop = '1900 mm'",
    "height = '1200 mm'",
    "survey.features[0].height",
    "1200 mm",
    "a door has a lower and an upper edge; write bottom and top instead"
)]
#[case::height_and_edges(
    "door",
    "bottom = '500 mm'",
    "height = '1200 mm'\nbottom = '500 mm'",
    "survey.features[0].height",
    "1200 mm",
    "bottom and top say it otherwise"
)]
#[case::door_without_a_place("door", "rear = '7000 mm'\n", "", "survey.features[0].rear", "", "write rear and front")]
#[case::fitting_above_the_highest_part(
    "door",
    "kind = 'door'\nside = 'right'\nbottom = '500 mm'\ntop = '1900 mm'",
    "kind = 'fitting'\nheight = '3100 mm'",
    "survey.features[0].height",
    "3100 mm",
    "above vehicle.overall_height at 3020 mm"
)]
#[case::window_above_the_drip_rail(
    "door",
    "kind = 'door'\nside = 'right'\nbottom = '500 mm'\ntop = '1900 mm'",
    "kind = 'window'\nbottom = '2 m'\ntop = '2.6 m'",
    "survey.features[0].top",
    "2.6 m",
    "a window ends below survey.drip_rail at 2500 mm"
)]
#[case::rub_rail_above_the_sill(
    "door",
    "kind = 'door'\nside = 'right'\nbottom = '500 mm'\ntop = '1900 mm'",
    "kind = 'rub rail'\nheight = '1700 mm'",
    "survey.features[0].height",
    "1700 mm",
    "a rub rail lies below survey.window_bottom at 1680 mm"
)]
#[case::another_drip_rail(
    "door",
    "kind = 'door'\nside = 'right'\nbottom = '500 mm'\ntop = '1900 mm'",
    "kind = 'drip rail'\nheight = '2460 mm'",
    "survey.features[0].height",
    "2460 mm",
    "survey.drip_rail is at 2500 mm, more than the tape's error of 10 mm away"
)]
#[case::end_cap_in_the_middle(
    "door",
    "kind = 'door'\nside = 'right'\nbottom = '500 mm'\ntop = '1900 mm'",
    "kind = 'end cap'\nbottom = '2500 mm'\ntop = '2900 mm'",
    "survey.features[0].rear",
    "7000 mm",
    "this one reaches neither"
)]
#[case::one_name_twice(
    "door",
    "[raise]",
    "[[survey.features]]\nname = 'door'\nkind = 'rub rail'\nheight = '1 m'\n\n[raise]",
    "survey.features[1].name",
    "door",
    "used twice on one side"
)]
fn contradiction(
    #[case] base_name: &str,
    #[case] from: &str,
    #[case] to: &str,
    #[case] path: &str,
    #[case] value: &str,
    #[case] words: &str,
) {
    let mut text = edited(&base(base_name), from, to);
    // A table that an edit opens twice is one table.
    if let Some(at) = text.rfind("[survey]\naisle").filter(|_| text.matches("[survey]").count() == 2) {
        text = text.replacen("[survey]\naisle = \"2 m\"\n", "", 1).replacen(
            "[survey]\n",
            "[survey]\naisle = \"2 m\"\n",
            1,
        );
        assert!(at > 0);
    }
    let found = problems(&text);
    assert_eq!(found.iter().map(|p| p.problem.path()).collect::<Vec<_>>(), [path], "{found:#?}");
    let problem = &found[0].problem;
    assert_eq!(problem.value().unwrap_or(""), quoted(value));
    assert!(quoted(&problem.to_string()).contains(&quoted(words)), "{problem}");
    // The line that it names is in the survey, or where the contradicted entry stands.
    assert!(found[0].place.is_some(), "{problem}");
}

#[test]
fn a_feature_below_a_chain_is_off_the_body() {
    let text = edited(&base("chain"), "[raise]", &format!("{DOOR}\n[raise]"));
    let found = problems(&edited(&text, "bottom = '500 mm'", "bottom = '400 mm'"));
    assert_eq!(found[0].problem.path(), "survey.features[0].bottom");
    assert!(found[0].problem.to_string().contains("whose outline begins at 450 mm"), "{}", found[0]);
}

#[test]
fn an_empty_chain_asks_for_a_piece() {
    let text = base("chain");
    let (start, end) = (text.find("pieces = [").unwrap(), text.find("\n]\n\n[raise]").unwrap());
    let found = problems(&format!("{}pieces = [{}", &text[..start], &text[end + 1..]));
    assert_eq!(found[0].problem.path(), "survey.outline.pieces");
    assert!(found[0].problem.to_string().contains("ends at the crown"), "{}", found[0]);
}

#[test]
fn contradictions_of_several_parts_come_at_once() {
    let mut text = edited(&base("chain"), "[raise]", &format!("{DOOR}\n[survey.right]\nwindows = 8\n\n[raise]"));
    for (from, to) in [("'320 mm'", "'180 mm'"), ("top = '1900 mm'", "top = '400 mm'"), ("'54 7/16 in'", "'50 in'")] {
        text = edited(&text, from, to);
    }
    let first: Vec<String> = problems(&text).iter().map(|p| p.problem.path().to_owned()).collect();
    assert_eq!(first, ["survey.last_post_to_front", "survey.outline.pieces[3].radius", "survey.features[0].top"]);
    // What is compared with the posts comes once those are right.
    for (from, to) in [("'50 in'", "'54 7/16 in'"), ("'180 mm'", "'320 mm'"), ("top = '400 mm'", "top = '1900 mm'")] {
        text = edited(&text, from, to);
    }
    let second: Vec<String> = problems(&text).iter().map(|p| p.problem.path().to_owned()).collect();
    assert_eq!(second, ["survey.right.windows"]);
}

// What the tape cannot tell apart is no contradiction.
#[rstest]
#[case::a_joint_taped_twice(
    "chain",
    "radius = '320 mm',",
    "from = { half_width = '1185 mm', height = '2505 mm' }, radius = '320 mm',"
)]
#[case::a_crown_taped_twice("chain", "'0 mm', height = '2900 mm'", "'6 mm', height = '2906 mm'")]
#[case::sides_within_the_tape(
    "library",
    "[raise]",
    "[survey.right]\nwindows = 9\ndrip_rail = '2.507 m'\nexceptions = [{ window = 9, spacing = '24 1/4 in' }]\n\n[raise]"
)]
#[case::unlike_rub_rails("library", "[raise]", "[survey.right]\nrub_rail = '1.4 m'\n\n[raise]")]
#[case::unlike_leans("library", "[raise]", "[survey.right]\nlean = { inset = '1 in', drop = '32 in' }\n\n[raise]")]
#[case::a_door_under_the_cut("door", "top = '1900 mm'", "top = '2 m'")]
#[case::another_tape("library", "'54 7/16 in'", "'54 in'\ntape_error = '20 mm'")]
fn within_the_tape(#[case] base_name: &str, #[case] from: &str, #[case] to: &str) {
    Plan::from_text(&edited(&base(base_name), from, to), ".".as_ref()).unwrap().evaluate().unwrap();
}
