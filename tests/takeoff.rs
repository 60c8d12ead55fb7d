//! What is counted and bought: pieces, paint and sealant by volume. Values worked by hand beside each.

use raisedbody::body::rivet_lines::LineKind;
use raisedbody::body::stacks::{Behind, stacks};
use raisedbody::mechanics::paint::spreading_rate_m2_l;
use raisedbody::plan::{Evaluation, Plan};
use rstest::rstest;

use crate::common::{without_end_caps, without_paint};

// By hand: one litre with 45 % solids dries to 0.45 L, at 60 µm 7.5 m2; 30 % of it misses the sheet: 5.25 m2.
#[rstest]
#[case(0.45, 60.0, 0.0, 7.5)]
#[case(0.45, 60.0, 0.3, 5.25)]
#[case(1.0, 1000.0, 0.0, 1.0)]
fn a_litre_of_paint_by_hand(#[case] solids: f64, #[case] film_um: f64, #[case] loss: f64, #[case] m2: f64) {
    assert!((spreading_rate_m2_l(solids, film_um, loss) - m2).abs() < 1e-12);
}

// What a rivet goes through, by hand: of the library's left side, posts 4 and 7 carry seams. Between the upper line and the
// header two sheets lap there, where the header crosses them four; beside them one, at the header two.
#[test]
fn every_rivet_in_one_lot() {
    let build = Plan::read("examples/mobile_library.toml").unwrap().evaluate().unwrap();
    let holes = |sheets: usize, behind: Behind| {
        build
            .rivet_lots
            .iter()
            .find(|l| (l.stacked.sheets, l.stacked.behind) == (sheets, behind))
            .map_or(0, |l| l.stacked.holes)
    };
    assert_eq!(build.rivet_lots.iter().map(|l| l.stacked.holes).sum::<usize>(), build.takeoff.rivets);
    // Two seams on each side cross the header; so do the corner strips' laps on the outermost posts, with two sheets and a strip.
    assert_eq!(holes(4, Behind::Post), 4);
    assert_eq!(holes(3, Behind::Post), 4);
    assert_eq!(holes(2, Behind::DripRailAndPost), 8);
    assert_eq!(holes(1, Behind::DripRailAndPost), 12);
    // By hand: sheet 1.2 mm less or more twice, post wall 0.0598 in, two lap faces of 0.1 mm.
    let grip = |sheets: usize| {
        build
            .rivet_lots
            .iter()
            .find(|l| (l.stacked.sheets, l.stacked.behind) == (sheets, Behind::Post))
            .unwrap()
            .grip_mm
            .unwrap()
    };
    assert!((grip(2) - (2.0 * build.sheet_thickness_mm + 0.0598 * 25.4 + 0.2)).abs() < 1e-9);
    assert!((grip(2) - grip(1) - build.sheet_thickness_mm - 0.1).abs() < 1e-9);
}

// By hand: the workshop bus rises by 250 mm over posts 2 to 8 with a cheek at either end of either side. The posts' lines go
// from 2160 over the cheek's lower edge at 2440 to 2690 mm, three spaces each; the upper four holes of posts 2 and 8 go
// through two sheets.
#[test]
fn a_cheek_laps_on_its_post() {
    let build = Plan::read("examples/workshop_bus.toml").unwrap().evaluate().unwrap();
    let line = build.lines.iter().find(|l| l.id == "L-P2").unwrap();
    assert_eq!(line.hole_places_mm().filter(|(_, z)| *z > 2439.9).count(), 4);
    let two = build.rivet_lots.iter().filter(|l| l.stacked.sheets == 2 && l.stacked.behind.has_post());
    let holes: usize = two.map(|l| l.stacked.holes).sum();
    let seam = build
        .lines
        .iter()
        .filter(|l| l.kind == LineKind::Seam && !["L-P2", "R-P2", "L-P8", "R-P8"].contains(&l.id.as_str()));
    assert_eq!(holes, 4 * 4 + seam.map(|l| l.holes_mm.len()).sum::<usize>());
}

// By hand: the library's ends closed by bands and corners. Upper edges of the four corner strips go under the drip rail like the sheets beside them; lower
// edges lie on the old side, both of the bands on the old end, tube behind; a band's sides lap with the corners.
#[rstest]
#[case("rear corner, left, upper edge", 1, Behind::DripRail)]
#[case("rear corner, left, lower edge", 1, Behind::OldSheetAndBacking)]
#[case("rear band, upper edge", 1, Behind::OldSheetAndBacking)]
#[case("rear band, left edge", 2, Behind::Backing)]
fn what_the_rivets_of_an_end_go_through(#[case] line: &str, #[case] sheets: usize, #[case] behind: Behind) {
    let text = without_end_caps(include_str!("../examples/mobile_library.toml"));
    let build = Plan::from_text(&text, ".".as_ref()).unwrap().evaluate().unwrap();
    let own: Vec<_> = build.lines.iter().filter(|l| l.id == line).cloned().collect();
    assert_eq!(own.len(), 1, "{line}");
    let found = stacks(&build.survey, &build.raise, &build.skins, &own);
    assert_eq!(found.iter().map(|s| (s.sheets, s.behind)).collect::<Vec<_>>(), [(sheets, behind)]);
}

// By hand: by caps. On a side the upper edge goes under the drip rail, the rest into tube; at the seam of the front cap both
// pieces lap, at the ends of its edges too.
#[rstest]
#[case("rear cap, upper edge, left", &[(1, Behind::DripRail)])]
#[case("rear cap, lower edge, right", &[(1, Behind::OldSheetAndBacking)])]
#[case("rear cap, upper edge", &[(1, Behind::OldSheetAndBacking)])]
#[case("front cap, 1 of 2, lower edge", &[(1, Behind::OldSheetAndBacking), (2, Behind::OldSheetAndBacking)])]
#[case("front cap, 2 of 2, lower edge", &[(1, Behind::OldSheetAndBacking)])]
#[case("front cap, 1 of 2, seam", &[(2, Behind::Backing)])]
fn what_the_rivets_of_a_cap_go_through(#[case] line: &str, #[case] stacked: &[(usize, Behind)]) {
    let build = Plan::read("examples/mobile_library.toml").unwrap().evaluate().unwrap();
    let own: Vec<_> = build.lines.iter().filter(|l| l.id == line).cloned().collect();
    assert_eq!(own.len(), 1, "{line}");
    let found = stacks(&build.survey, &build.raise, &build.skins, &own);
    assert_eq!(found.iter().map(|s| (s.sheets, s.behind)).collect::<Vec<_>>(), stacked);
}

// A lower edge at the rub rail goes through the rail as well.
#[test]
fn the_rub_rail_is_gripped() {
    let library = Plan::read("examples/mobile_library.toml").unwrap();
    let build = library.replace(&"skin.lower_edge = \"rub rail\"".parse().unwrap()).unwrap().evaluate().unwrap();
    let behind: Vec<Behind> = build.rivet_lots.iter().map(|l| l.stacked.behind).collect();
    assert!(behind.contains(&Behind::RubRail) && behind.contains(&Behind::RubRailAndPost), "{behind:?}");
    assert!(!behind.contains(&Behind::OldSide), "{behind:?}");
}

// A rivet whose grips the catalogue knows is ordered by length, each length with its own spares.
#[test]
fn lengths_to_order() {
    let changes = "fastening = { diameter = \"4.8 mm\", product = \"ISO 15981\", shear = \"1500 N\", tension = \"2000 N\", \
                   hole = \"4.9 mm\", pitch = \"100 mm\", head = \"9.5 mm\", provenance = \"invented\" }";
    let base = std::fs::read_to_string("examples/mobile_library.toml").unwrap();
    let start = base.find("[fastening]").unwrap();
    let end = start + base[start..].find("[service]").unwrap();
    let text = format!("{changes}\n{}{}", &base[..start], &base[end..]);
    let build = Plan::from_text(&text, ".".as_ref()).unwrap().evaluate().unwrap();
    let lines: Vec<_> = build.order.iter().filter(|l| l.item.starts_with("rivets")).collect();
    assert!(lines.len() > 1 && lines.iter().all(|l| l.item.contains("mm long")), "{lines:?}");
    let ordered: f64 = lines.iter().map(|l| l.quantity).sum();
    assert!((ordered - build.takeoff.rivets_ordered as f64).abs() < 1e-9);
    assert!(build.takeoff.rivets_ordered >= (build.takeoff.rivets * 11).div_ceil(10));
}

// By hand: 40 × 40 × 2 tube has 4 × 40 mm less its corners of outside to paint; the channel runs over the kept windows of both
// sides; a drip rail over both whole sides.
#[test]
fn trim_and_paint_of_whole_plans() {
    let workshop = Plan::read("examples/workshop_bus.toml").unwrap();
    let build = workshop
        .replace(
            &"skin = { channel = true, drip_rail = \"new\", bond = { thickness = \"0.8 mm\", width = \"19 mm\" } }"
                .parse()
                .unwrap(),
        )
        .unwrap()
        .evaluate()
        .unwrap();
    let t = &build.takeoff;
    let kept: f64 = build
        .skins
        .runs
        .iter()
        .filter(|r| r.above.is_some())
        .map(|r| build.survey.posts_mm[r.last_post] - build.survey.posts_mm[r.first_post])
        .sum();
    assert!(kept > 0.0 && (t.channel_m - kept / 1000.0).abs() < 1e-9);
    let has = |item: &str| build.order.iter().find(|l| l.item == item).map(|l| l.quantity);
    assert_eq!((has("channel"), has("drip rail")), (Some(t.channel_m), Some(t.drip_rail_m)));
    assert_eq!(has("tape or adhesive on posts"), Some(t.on_posts_m));
    let plain = workshop.evaluate().unwrap();
    let grip =
        |e: &Evaluation| e.rivet_lots.iter().find(|l| l.stacked.behind == Behind::Post).unwrap().grip_mm.unwrap();
    assert!((grip(&build) - grip(&plain) - 0.8).abs() < 1e-9);
    assert!(t.topcoat_area_m2 < t.skin_area_m2 && t.topcoat_area_m2 > 0.8 * t.skin_area_m2);
    let [(primer, _), (topcoat, topcoat_l)] = t.paints_l()[..] else { panic!("{:?}", t.coats) };
    assert_eq!((primer, topcoat), ("primer", "topcoat"));
    assert!((topcoat_l - t.topcoat_area_m2 / (1000.0 * 0.5 / 50.0 * 0.7)).abs() < 1e-9);
}

// Of whole plans, with the catalogue's bead of 25 × 0.5 mm, 12 % more sealant, and primer as above.
#[rstest]
fn litres_bars_and_blanks_of_whole_plans(#[values("mobile_library", "workshop_bus")] name: &str) {
    let text = std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
    let text = if text.contains("[paint]") { without_paint(&text) } else { text };
    let build = Plan::from_text(&text, ".".as_ref()).unwrap().evaluate().unwrap();
    let t = &build.takeoff;
    assert!((t.sealant_l - t.sealed_length_m * 0.025 * 0.0005 * 1000.0 * 1.12).abs() < 1e-9);
    assert!((t.primed_area_m2 - t.skin_area_m2 - t.bare_area_m2).abs() < 1e-12);
    assert!((t.coats[0].paint_l - t.primed_area_m2 / 5.25).abs() < 1e-9);
    // Both sides, every lengthened post; bars of 20 ft.
    assert_eq!(t.posts_lengthened, 2 * (build.raise.last_post - build.raise.first_post + 1));
    assert_eq!(t.inserts.pieces_mm.len(), t.posts_lengthened);
    let insert_mm = build.raise.height_mm + 2.0 * build.raise.overlap_mm;
    assert!(t.inserts.pieces_mm.iter().all(|p| (p - insert_mm).abs() < 1e-9));
    for bars in [&t.inserts, &t.backing] {
        assert!((bars.total_m * 1000.0 - bars.pieces_mm.iter().sum::<f64>()).abs() < 1e-6);
        assert!(bars.pieces_mm.is_sorted_by(|a, b| a >= b) && bars.pieces_mm.iter().all(|p| *p <= 6096.0));
    }
    // Each sheet and panel is cut from one blank of its own size, rounded up to the tenth of a millimetre.
    let ids: Vec<&String> = t.blanks.iter().flat_map(|b| &b.ids).collect();
    assert_eq!((ids.len(), t.blanks.iter().map(|b| b.count).sum::<usize>()), (t.sheets, t.sheets));
    let sides = build.skins.sheets.iter().map(|s| (&s.id, s.length_mm(), s.height_mm()));
    for (id, length, height) in sides.chain(build.skins.ends.iter().map(|e| (&e.id, e.length_mm, e.height_mm))) {
        let blank = t.blanks.iter().find(|b| b.ids.contains(id)).unwrap();
        for over in [blank.length_mm - length, blank.height_mm - height] {
            assert!((-1e-5..0.1).contains(&over), "{id}: {over}");
        }
    }
}

/// Grain, face and factory edge of each blank are told with it; defaults are listed.
#[test]
fn blanks_say_how_they_are_cut() {
    const WORKSHOP: &str = include_str!("../examples/workshop_bus.toml");
    let evaluated = |text: &str| Plan::from_text(text, ".".as_ref()).unwrap().evaluate().unwrap();
    let plain = evaluated(WORKSHOP);
    for b in &plain.takeoff.blanks {
        let edges = b.ids.iter().map(|id| match plain.skins.sheets.iter().find(|sheet| sheet.id == *id) {
            Some(sheet) => plain.skins.showing_edge(sheet),
            None => Some("lower"),
        });
        assert!(edges.into_iter().all(|edge| edge == b.factory_edge), "{:?}", b.ids);
        let note =
            format!("{}; grain level, the blank must not turn; both faces alike; factory edge", b.ids.join(", "));
        assert!(plain.order.iter().any(|line| line.item.starts_with("sheet") && line.note.contains(&note)), "{note}");
    }
    for (field, value) in [("skin.grain", "level"), ("skin.finished_face", "alike")] {
        assert!(plain.assumed.iter().any(|a| a.field == field && a.value == value), "{field}");
    }
    let given = "[skin]\ngrain = \"either\"\nfinished_face = \"outside\"";
    let own = evaluated(&WORKSHOP.replace("[skin]", given));
    assert!(!own.assumed.iter().any(|a| a.field == "skin.grain" || a.field == "skin.finished_face"));
    let words = "grain either way, the blank may turn; finished face outside; factory edge: lower";
    assert!(own.order.iter().any(|line| line.note.ends_with(words)));
    for shown in [raisedbody::drawing::text::evaluation(&own), raisedbody::drawing::html::evaluation(&own)] {
        assert!(shown.contains("either way, the blank may turn") && shown.contains("finished face outside"));
    }
    let refused = Plan::from_text(&WORKSHOP.replace("[skin]", "[skin]\ngrain = \"lenght\""), ".".as_ref());
    assert!(refused.unwrap_err().to_string().contains("skin.grain"));
}
