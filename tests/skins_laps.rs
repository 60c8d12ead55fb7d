//! Which sheet lies over which: water runs down and wind drives it back (common practice, no source); laws on whole plans.

use raisedbody::Error;
use raisedbody::body::skins::LapKind;
use raisedbody::check::Verdict;
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

const LIBRARY: &str = include_str!("../examples/mobile_library.toml");
const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");

fn changed(base: &str, changes: &str) -> Result<Evaluation, Error> {
    Plan::from_text(base, ".".as_ref())?.replace(&changes.parse().unwrap())?.evaluate()
}

fn water(build: &Evaluation) -> Verdict {
    build.checks.iter().find(|c| c.name == "laps and water").unwrap().verdict
}

const ENDS: [&str; 3] = [
    "raise.ends = \"whole roof\"",
    "raise.ends = \"stepped\"\nraise.first_post = 2\nraise.last_post = 9",
    "raise.ends = \"sloped\"\nraise.slope_run = \"400 mm\"\nraise.first_post = 2\nraise.last_post = 9",
];

// Two sheets of one side that share more than their edges lap, once; the upper or forward one lies outside; every sheet hangs
// under something above and over something below or behind it.
#[rstest]
fn every_overlap_is_a_lap(
    #[values(LIBRARY, WORKSHOP)] base: &str,
    #[values(0, 1, 2)] ends: usize,
    #[values("3 m", "1.6 m")] length: &str,
) {
    let build = changed(base, &format!("{}\nskin.largest_sheet.length = \"{length}\"", ENDS[ends]));
    // The workshop bus is raised over fewer windows by its own plan.
    let Ok(build) = build else {
        assert_eq!(base, WORKSHOP);
        return;
    };
    assert_eq!(water(&build), Verdict::Passes);
    let edge_mm = build.skins.sheets[0].z1_mm - build.skins.runs[0].lines_mm[0];
    let s = &build.skins.sheets;
    for (i, a) in s.iter().enumerate() {
        for b in s.iter().skip(i + 1).filter(|b| b.side == a.side) {
            let x_mm = a.x1_mm.min(b.x1_mm) - a.x0_mm.max(b.x0_mm);
            let z_mm = a.z1_mm.min(b.z1_mm) - a.z0_mm.max(b.z0_mm);
            let laps: Vec<_> = build
                .skins
                .laps
                .iter()
                .filter(|l| [&a.id, &b.id] == [&l.over, &l.under] || [&b.id, &a.id] == [&l.over, &l.under])
                .collect();
            // Corner to corner they share a square of two edges.
            let meet = x_mm > 0.0 && z_mm > 0.0 && x_mm.max(z_mm) > 3.0 * edge_mm;
            assert_eq!(laps.len(), usize::from(meet), "{} {}", a.id, b.id);
            if let [lap] = laps[..] {
                let over = if lap.over == a.id { (a, b) } else { (b, a) };
                match lap.kind {
                    LapKind::Upright => assert!(over.0.x0_mm > over.1.x0_mm, "{lap:?}"),
                    LapKind::Level => assert!(over.0.z0_mm > over.1.z0_mm, "{lap:?}"),
                    LapKind::Across => panic!("{lap:?}"),
                }
            }
        }
        assert!(build.skins.laps.iter().any(|l| l.under == a.id), "{} lies under nothing", a.id);
    }
    for panel in &build.skins.ends {
        assert!(build.skins.laps.iter().any(|l| l.over == panel.id), "{}", panel.id);
        assert!(build.skins.laps.iter().any(|l| l.under == panel.id), "{}", panel.id);
    }
}

// By hand: sheet A1 is the rearmost of the top course, A2 the next one forward; B1 lies below A1.
#[rstest]
#[case("L-A1", "L-A2", "wind drives water back behind L-A1")]
#[case("L-B1", "L-A1", "water that runs down L-A1 is led behind L-B1")]
#[case("L-A1", "drip rail", "water that runs down drip rail is led behind L-A1")]
fn a_lap_turned_round_leads_water_behind(#[case] over: &str, #[case] under: &str, #[case] words: &str) {
    let build = changed(LIBRARY, &format!("skin.laps = [{{ over = \"{over}\", under = \"{under}\" }}]")).unwrap();
    assert_eq!(water(&build), Verdict::Fails);
    let lap = build.skins.laps.iter().find(|l| l.turned).unwrap();
    assert!(lap.fault.as_ref().unwrap().contains(words), "{lap:?}");
    assert_eq!(build.skins.laps.iter().filter(|l| l.fault.is_some()).count(), 1);
}

// By hand: of the library the lower sheets of posts 1 and 10 go down to 1680 mm, 820 mm below the corners' lower edge at 2500;
// there they meet the old side. With windows 1 to 3 kept, the first sheet of the others begins beside a kept window.
#[test]
fn edges_beside_what_stays() {
    let build = changed(LIBRARY, "").unwrap();
    let find = |over: &str, under: &str| build.skins.laps.iter().find(|l| l.over == over && l.under == under).unwrap();
    assert!((find("old side ahead", "L-B3").length_mm - (820.0 - 15.875)).abs() < 1e-6);
    assert!((find("L-B1", "old side behind").length_mm - (820.0 - 15.875)).abs() < 1e-6);
    let kept =
        changed(LIBRARY, "raise.windows_kept = [1, 2, 3]\nraise.cut = \"2.3 m\"\nraise.overlap = \"75 mm\"").unwrap();
    let beside = kept.skins.laps.iter().find(|l| l.under == "kept windows" && l.post == Some(3)).unwrap();
    assert_eq!((beside.kind, kept.checks.iter().any(|c| c.name == "patch panels")), (LapKind::Upright, false));
}

#[test]
fn one_pair_is_spoken_of_once() {
    let twice = "skin.laps = [{ over = \"L-A1\", under = \"L-A2\" }, { over = \"L-A2\", under = \"L-A1\" }]";
    let Err(Error::Input(problems)) = changed(LIBRARY, twice) else { panic!("they contradict each other") };
    assert_eq!(problems[0].problem.path(), "skin.laps[1]");
}

// A door of 300 mm in a bay of 711 mm: what is left open beside it is told, not skinned over in silence.
#[test]
fn a_door_narrower_than_its_bay() {
    let door = "[[survey.features]]\nname = \"entry door\"\nkind = \"door\"\nside = \"right\"\nbottom = \"0.4 m\"\ntop = \"1.95 m\"\n\
                rear = \"2.6 m\"\nfront = \"2.9 m\"";
    let build = changed(LIBRARY, door).unwrap();
    let check = build.checks.iter().find(|c| c.name == "patch panels").unwrap();
    assert_eq!(check.verdict, Verdict::NotAssessed);
    assert!(check.reason.as_ref().unwrap().contains("entry door is narrower than its bay"), "{check:?}");
}

#[test]
fn what_lies_as_it_should_may_be_said_again() {
    let build = changed(LIBRARY, "skin.laps = [{ over = \"L-A2\", under = \"L-A1\" }]").unwrap();
    assert_eq!(water(&build), Verdict::Passes);
}

#[test]
fn an_exception_for_sheets_that_do_not_meet() {
    let Err(Error::Input(problems)) = changed(LIBRARY, "skin.laps = [{ over = \"L-A3\", under = \"L-A1\" }]") else {
        panic!("they do not meet")
    };
    assert_eq!(problems[0].problem.path(), "skin.laps[0]");
}
