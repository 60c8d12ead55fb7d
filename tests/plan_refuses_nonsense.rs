//! What no plan can mean is refused, and what cannot stand does not pass. (No published source: laws of sense.)

use raisedbody::Error;
use raisedbody::check::Verdict;
use raisedbody::plan::Plan;
use rstest::rstest;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");

fn read(text: &str) -> Result<Plan, Error> {
    Plan::from_text(text, ".".as_ref())
}

fn changed(base: &str, changes: &str) -> Result<Plan, Error> {
    read(base).unwrap().replace(&changes.parse().unwrap())
}

fn problem(result: Result<Plan, Error>) -> String {
    match result {
        Err(Error::Input(problems)) => problems[0].problem.path().to_owned(),
        other => panic!("not refused: {other:?}"),
    }
}

#[test]
fn more_cannot_be_removed_than_stands_on_the_axles() {
    let all = "removed = [{ name = \"x\", mass = \"15 t\", x = \"4.2 m\", z = \"1 m\" }]";
    assert_eq!(problem(changed(LIBRARY, all)), "removed");
}

#[rstest]
#[case::rear("11 m", "rear axle")]
#[case::front("-2.9 m", "front axle")]
fn an_axle_that_lifts_fails_every_check_on_it(#[case] x: &str, #[case] axle: &str) {
    let item = format!("fit_out = [{{ name = \"y\", mass = \"9 t\", x = \"{x}\", z = \"1 m\" }}]");
    let build = changed(LIBRARY, &item).unwrap().evaluate().unwrap();
    let on_axle: Vec<_> = build.checks.iter().filter(|c| c.subject == axle).collect();
    assert_eq!(on_axle.len(), 2, "axle and tyre load");
    assert!(on_axle.iter().all(|c| c.verdict == Verdict::Fails && c.demand.unwrap() < 0.0));
}

#[test]
fn a_bus_without_exits_is_not_assessed() {
    let build = changed(LIBRARY, "survey.exits = []").unwrap().evaluate().unwrap();
    let exits = build.checks.iter().find(|c| c.name == "emergency exits").unwrap();
    assert_eq!(exits.verdict, Verdict::NotAssessed);
}

#[rstest]
#[case::coat("coat_areal_mass", "-50 kg/m2")]
#[case::factor("load_factor", "0.5")]
#[case::text("kerf", "nonsense")]
#[case::bead("bead_width", "-1 mm")]
#[case::solids("primer_solids", "0")]
#[case::edge("edge_diameters", "0")]
fn own_defaults_have_bounds(#[case] key: &str, #[case] value: &str) {
    let row = format!(
        "catalogue.rows.default = [{{ key = \"{key}\", value = \"{value}\", meaning = \"x\", source = \"a test\", \
         standing = \"assumed\" }}]"
    );
    assert!(problem(changed(WORKSHOP, &row)).contains(key));
}

#[test]
fn no_prices_end_the_arithmetic() {
    for price in ["70000000000000000000000000 USD", "70000000000000000000000000000 USD"] {
        let text = LIBRARY.replace("2.35 USD", price).replace("85 USD", price);
        let Err(Error::Input(problems)) = read(&text) else { panic!("{price}") };
        assert!(problems.iter().all(|p| p.problem.path().starts_with("prices.")), "{problems:?}");
    }
}

#[test]
fn a_rear_post_beyond_the_last_is_named() {
    assert_eq!(problem(changed(WORKSHOP, "raise.first_post = 12")), "raise.first_post");
}

#[test]
fn a_shape_that_contradicts_its_section_is_named() {
    assert_eq!(problem(changed(WORKSHOP, "survey.post.shape = \"hat\"")), "survey.post.shape");
}

#[test]
fn a_yield_above_the_grades_tensile_is_named() {
    assert_eq!(problem(changed(LIBRARY, "skin.fy = \"400 MPa\"")), "skin.fy");
}

#[test]
fn replace_reads_catalogue_files() {
    let missing = changed(LIBRARY, "catalogue.files = [\"no_such.toml\"]");
    assert!(matches!(missing, Err(Error::File { .. })));
}

#[test]
fn a_broken_catalogue_file_is_named() {
    let folder = tempfile::tempdir().unwrap();
    for text in ["gauge = [", "gaug = []"] {
        std::fs::write(folder.path().join("own.toml"), text).unwrap();
        let plan = LIBRARY.to_owned() + "\n[catalogue]\nfiles = [\"own.toml\"]\n";
        let error = Plan::from_text(&plan, folder.path()).unwrap_err();
        assert!(error.to_string().contains("own.toml"), "{error}");
    }
}

#[test]
fn a_broken_own_row_has_no_echo() {
    let text = LIBRARY.replace("\"SS33\"", "\"OWN\"") + "\n[[catalogue.rows.grade]]\nname = \"OWN\"\nfu = 300\n";
    assert!(!read(&text).unwrap_err().to_string().contains("skin.grade"));
}
