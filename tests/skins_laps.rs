//! Which sheet lies over which: water runs down and wind drives it back (common practice, no source); laws on whole plans.

use raisedbody::Error;
use raisedbody::body::skins::LapKind;
use raisedbody::body::survey::Side;
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

fn door(rear: &str, front: &str) -> String {
    format!(
        "[[survey.features]]\nname = \"entry door\"\nkind = \"door\"\nside = \"right\"\nbottom = \"0.4 m\"\ntop = \"1.95 m\"\n\
         rear = \"{rear}\"\nfront = \"{front}\""
    )
}

// By hand: a door from 2600 to 2900 mm in the bay of posts 4 and 5, at 2501.9 and 3213.1 mm, leaves 98.1 mm behind it and 313.1
// ahead, from 1680 up to 1950 mm. Each patch reaches from 5/8 in beyond its post to the door's frame, 5/8 in above and below.
#[rstest]
fn patches_beside_a_door(#[values("window bottom", "rub rail")] lower: &str) {
    let build = changed(LIBRARY, &format!("skin.lower_edge = \"{lower}\"\n{}", door("2.6 m", "2.9 m"))).unwrap();
    let rail = lower == "rub rail";
    let patches: Vec<_> = build.skins.patches(Side::Right).collect();
    assert_eq!((patches.len(), build.skins.patches(Side::Left).count()), (2, 0));
    let (edge, low) = (15.875, if rail { 1500.0 } else { 1680.0 });
    for ((sheet, patch), open) in patches.iter().zip([98.1, 313.1]) {
        assert!(
            (sheet.length_mm() - open - edge).abs() < 1e-6
                && (sheet.height_mm() - 1950.0 + low - 2.0 * edge).abs() < 1e-6
        );
        assert!((sheet.mass_kg - sheet.area_m2() * build.sheet_areal_mass_kg_m2).abs() < 1e-9 && sheet.people == 1);
        // Up beside the door and along below: no hole of another line, none twice.
        let own = |word: &str| build.lines.iter().find(|l| l.id == format!("{}, {word}", sheet.id)).unwrap();
        assert!((own("lower edge").length_mm() - (open - edge)).abs() < 1e-6);
        assert!((own("beside the opening").from_mm.0 - patch.line_mm).abs() < 1e-9);
        // As a panel it lies between the post and that line.
        let row = build.flatness.rows().find(|row| row.panel.id == sheet.id).unwrap();
        let panel = row.panel;
        assert!((panel.width_mm - open + edge).abs() < 1e-6 && (panel.height_mm - 1950.0 + low).abs() < 1e-6);
        assert!(row.suction_bow.is_some_and(|bow| bow.most_mm.is_some()), "{panel:?}");
        let upright =
            build.takeoff.backers.iter().find(|b| b.behind == format!("{}, upright beside entry door", sheet.id));
        assert!((upright.unwrap().length_mm - (1950.0 - low)).abs() < 1e-6);
        for list in [
            build.takeoff.blanks.iter().flat_map(|b| &b.ids).filter(|id| **id == sheet.id).count(),
            build.items.iter().filter(|i| i.name == format!("skin {}", sheet.id)).count(),
            build.hanging_order.iter().filter(|row| row.sheet == sheet.id).count(),
        ] {
            assert_eq!(list, 1, "{}", sheet.id);
        }
    }
    // Between: over the sheet behind, beneath the sheet above and the one ahead; beside the frame as any sheet.
    let over =
        |over: &str| build.skins.laps.iter().filter(|l| l.over == over).map(|l| l.under.as_str()).collect::<Vec<_>>();
    let under =
        |under: &str| build.skins.laps.iter().filter(|l| l.under == under).map(|l| l.over.as_str()).collect::<Vec<_>>();
    assert_eq!(over("R-patch 1"), if rail { vec!["R-B1"] } else { vec!["R-B1", "old side"] });
    assert_eq!(
        under("R-patch 1"),
        if rail { vec!["R-A2", "rub rail", "entry door"] } else { vec!["R-A2", "entry door"] }
    );
    assert_eq!(over("R-patch 2"), if rail { vec!["entry door"] } else { vec!["old side", "entry door"] });
    assert_eq!(under("R-patch 2"), if rail { vec!["R-B2", "R-A2", "rub rail"] } else { vec!["R-B2", "R-A2"] });
    // What lies beneath the sheet over the door, from post to post, is patch or door.
    let beneath: f64 =
        build.skins.laps.iter().filter(|l| l.over == "R-A2" && l.kind == LapKind::Level).map(|l| l.length_mm).sum();
    assert!((beneath - 711.2).abs() < 1e-6, "{beneath}");
    let at = |name: &str| build.hanging_order.iter().position(|row| row.sheet == name).unwrap();
    assert!(at("R-B1") < at("R-patch 1"));
    let check = build.checks.iter().find(|c| c.name == "patch panels").unwrap();
    assert_eq!((check.verdict, check.demand), (Verdict::Passes, Some(0.0)), "{check:?}");
    assert_eq!(water(&build), Verdict::Passes);
    assert_eq!(build.rivet_lots.iter().map(|l| l.stacked.holes).sum::<usize>(), build.takeoff.rivets);
    let places: Vec<_> =
        build.lines.iter().filter(|l| l.side == Some(Side::Right)).flat_map(|l| l.hole_places_mm()).collect();
    for (i, a) in places.iter().enumerate() {
        assert_eq!(places[i + 1..].iter().find(|b| (a.0 - b.0).hypot(a.1 - b.1) < 1.0), None, "{a:?}");
    }
    let told = raisedbody::drawing::side_view(&build, Side::Right);
    assert!(told.contains("R-patch 1") && raisedbody::drawing::text::evaluation(&build).contains("R-patch 2"));
}

// What a bay keeps open and no patch fills, by hand: 18.1 mm behind the door are less than two edges of 15.9.
#[rstest]
#[case("2.52 m", "3.2131 m", "", "narrower than two edge distances of 15.9 mm")]
#[case("2.6 m", "3.2131 m", "skin.largest_sheet.height = \"450 mm\"", "")]
#[case("2.6 m", "3.2131 m", "skin.lower_edge = \"window bottom\"", "")]
fn where_no_patch_can_be(#[case] rear: &str, #[case] front: &str, #[case] more: &str, #[case] words: &str) {
    let build = changed(LIBRARY, &format!("{more}\n{}", door(rear, front))).unwrap();
    let check = build.checks.iter().find(|c| c.name == "patch panels").unwrap();
    assert_eq!(check.verdict, if words.is_empty() { Verdict::Passes } else { Verdict::NotAssessed });
    assert!(check.reason.as_ref().unwrap().contains(words), "{check:?}");
    assert_eq!(build.skins.patches(Side::Right).count(), usize::from(words.is_empty()));
    // A door as wide as its bay needs none.
    let full = changed(LIBRARY, &door("2.5019 m", "3.2131 m")).unwrap();
    assert!(full.checks.iter().all(|c| c.name != "patch panels"));
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
