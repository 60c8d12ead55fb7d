//! The checker of sheets, the cuts in order, and the machine on paper: each spoilt plan is refused for what spoils it.

use raisedbody::shop::cutting::Ended;
use raisedbody::shop::cutting::sheet_faults::sheet_faults;
use raisedbody::shop::cutting::sheets::{
    Content, Line, Part, SheetJob, SheetPattern, SheetPiece, SheetPlan, SheetStock, Trim,
};
use raisedbody::shop::cutting::steps::{Off, make, step_faults, steps};
use raisedbody::shop::cutting::{Rect, is_guillotine};
use rstest::rstest;

fn part(length_tenths: i64, width_tenths: i64, content: Content) -> Part {
    Part { length_tenths, width_tenths, content }
}

fn piece(piece: usize, length: i64, width: i64) -> Part {
    part(length, width, Content::Piece { piece, turned: false })
}

fn rest(length: i64, width: i64) -> Part {
    part(length, width, Content::Rest)
}

/// A sheet of 100 by 60 whose edges lose 2 at the start and 1 below; kerf 1; two pieces of 40 by 30 and one of 50 by 20.
fn good() -> (SheetJob, SheetPlan) {
    let stock = SheetStock {
        name: "sheet".to_owned(),
        length_tenths: 100,
        width_tenths: 60,
        price_coins: 500,
        count: Some(1),
        trim: Trim { start_tenths: 2, lower_tenths: 1, ..Trim::default() },
        cut_coins: 10,
        longest_cut_tenths: Some(58),
        throat_tenths: 30,
    };
    let need = |name: &str, length_tenths, width_tenths, count| SheetPiece {
        name: name.to_owned(),
        length_tenths,
        width_tenths,
        count,
        may_turn: false,
        bought_coins: Some(700),
    };
    let job = SheetJob {
        stock: vec![stock],
        pieces: vec![need("big", 40, 30, 2), need("long", 50, 20, 1), need("bought", 90, 90, 1)],
        kerf_tenths: 1,
        stages: None,
        first_cut: None,
        keep_tenths: (20, 10),
    };
    // Inside the edges: 97 by 58.
    let lower = part(
        97,
        30,
        Content::Cut { line: Line::Across, parts: vec![piece(0, 40, 30), piece(0, 40, 30), rest(15, 30)] },
    );
    let long = part(50, 27, Content::Cut { line: Line::Along, parts: vec![piece(1, 50, 20), rest(50, 6)] });
    let upper = part(97, 27, Content::Cut { line: Line::Across, parts: vec![long, rest(46, 27)] });
    let inside = part(97, 58, Content::Cut { line: Line::Along, parts: vec![lower, upper] });
    let plan = SheetPlan {
        patterns: vec![SheetPattern { stock: 0, times: 1, inside }],
        bought: vec![(2, 1)],
        // Two trims, one cut along, two across, one across, one along.
        price_coins: 500 + 7 * 10 + 700,
        bound_coins: 1000,
        ended: Ended::Effort,
        steps: 1,
    };
    (job, plan)
}

#[test]
fn a_good_plan_has_no_faults() {
    let (job, plan) = good();
    assert_eq!(sheet_faults(&job, &plan), Vec::<String>::new());
    let cuts = steps(&job.stock[0], job.kerf_tenths, &plan.patterns[0]);
    assert_eq!(step_faults(&job, &plan.patterns[0], &cuts), Vec::<String>::new());
}

/// The parts of a cut, by the way to it.
fn parts<'a>(plan: &'a mut SheetPlan, way: &[usize]) -> &'a mut Vec<Part> {
    let mut here = &mut plan.patterns[0].inside;
    for step in way {
        let Content::Cut { parts, .. } = &mut here.content else { panic!("no cut here") };
        here = &mut parts[*step];
    }
    let Content::Cut { parts, .. } = &mut here.content else { panic!("no cut here") };
    parts
}

#[rstest]
#[case::price(|_: &mut SheetJob, p: &mut SheetPlan| p.price_coins -= 1, "the price is 1270")]
#[case::bound(|_: &mut SheetJob, p: &mut SheetPlan| p.bound_coins = 2000, "lies above the price")]
#[case::one_too_few(|_: &mut SheetJob, p: &mut SheetPlan| parts(p, &[0])[0].content = Content::Rest, "big: 2 are needed, 1 are made")]
#[case::not_bought(|_: &mut SheetJob, p: &mut SheetPlan| p.bought.clear(), "bought: 1 are needed, 0 are made")]
#[case::not_sold(|j: &mut SheetJob, _: &mut SheetPlan| j.pieces[2].bought_coins = None, "cannot be bought")]
#[case::more_sheets(|_: &mut SheetJob, p: &mut SheetPlan| p.patterns[0].times = 2, "2 are cut, there are 1")]
#[case::no_stock(|_: &mut SheetJob, p: &mut SheetPlan| p.patterns[0].stock = 4, "there is no stock 4")]
#[case::wrong_size(|_: &mut SheetJob, p: &mut SheetPlan| parts(p, &[0])[0].length_tenths = 41, "big is cut 41 by 30")]
#[case::kerf_forgotten(|_: &mut SheetJob, p: &mut SheetPlan| parts(p, &[0])[2].length_tenths = 16, "parts and kerfs leave -1 over")]
#[case::a_gap(|_: &mut SheetJob, p: &mut SheetPlan| parts(p, &[1])[1].length_tenths = 40, "parts and kerfs leave 6 over")]
#[case::not_edge_to_edge(|_: &mut SheetJob, p: &mut SheetPlan| parts(p, &[0])[2].width_tenths = 20, "a part is 20 wide")]
#[case::outside(|_: &mut SheetJob, p: &mut SheetPlan| parts(p, &[])[1].width_tenths = 99, "parts and kerfs leave")]
#[case::turned(
    |_: &mut SheetJob, p: &mut SheetPlan| parts(p, &[0])[0].content = Content::Piece { piece: 0, turned: true },
    "may not turn"
)]
#[case::edges_not_trimmed(|j: &mut SheetJob, _: &mut SheetPlan| j.stock[0].trim.end_tenths = 1, "leaves inside its trimmed edges")]
#[case::out_of_reach(|j: &mut SheetJob, _: &mut SheetPlan| j.stock[0].throat_tenths = 20, "longer than the machine's")]
#[case::too_many_stages(|j: &mut SheetJob, _: &mut SheetPlan| (j.stages, j.first_cut) = (Some(2), Some(Line::Across)), "more than 2 stages")]
#[case::same_way_again(
    |_: &mut SheetJob, p: &mut SheetPlan| {
        let whole = parts(p, &[])[1].clone();
        parts(p, &[])[1] = part(97, 27, Content::Cut { line: Line::Along, parts: vec![whole, rest(97, -1)] });
    },
    "divided the same way once more"
)]
fn a_spoilt_plan_is_refused(#[case] spoil: fn(&mut SheetJob, &mut SheetPlan), #[case] words: &str) {
    let (mut job, mut plan) = good();
    spoil(&mut job, &mut plan);
    let faults = sheet_faults(&job, &plan);
    assert!(faults.iter().any(|fault| fault.contains(words)), "{faults:?}");
}

/// The last trimming cut of a piece is no stage.
#[rstest]
#[case(Some(Line::Along), true)]
#[case(None, true)]
#[case(Some(Line::Across), false)]
fn two_stages_and_a_trim(#[case] first_cut: Option<Line>, #[case] fits: bool) {
    let (mut job, plan) = good();
    (job.stages, job.first_cut) = (Some(2), first_cut);
    assert_eq!(sheet_faults(&job, &plan).is_empty(), fits);
}

#[test]
fn the_cuts_in_order() {
    let (job, plan) = good();
    let cuts = steps(&job.stock[0], job.kerf_tenths, &plan.patterns[0]);
    let told: Vec<_> = cuts.iter().map(|c| (c.part.as_str(), c.line, c.stop_tenths, c.length_tenths)).collect();
    let (along, across) = (Line::Along, Line::Across);
    let expected = [
        ("", across, 2, 60),
        ("", along, 1, 97),
        ("", along, 30, 97),
        ("a", across, 40, 30),
        ("a", across, 40, 30),
        ("b", across, 50, 27),
        ("b.a", along, 20, 50),
    ];
    assert_eq!(told, expected);
    assert_eq!(cuts[2].left, Some(Off::Part("b".to_owned())));
    assert_eq!(cuts[6].off, Off::Piece { piece: 1, place: 2 });
    let fallen = make(&job.stock[0], job.kerf_tenths, &cuts).unwrap();
    let sizes: Vec<_> = fallen.iter().filter_map(|(piece, size)| Some((piece.as_ref()?, *size))).collect();
    assert_eq!(sizes, [(&0, (40, 30)), (&0, (40, 30)), (&1, (50, 20))]);
}

#[rstest]
#[case::a_stop_beyond_the_part(|c: &mut Vec<raisedbody::shop::cutting::steps::Step>| c[3].stop_tenths = 98, "the stop stands at 98")]
#[case::a_part_cut_twice(|c: &mut Vec<raisedbody::shop::cutting::steps::Step>| { let last = c[6].clone(); c.push(last); }, "there is no part \"b.a\" left")]
#[case::not_the_whole_edge(|c: &mut Vec<raisedbody::shop::cutting::steps::Step>| c[5].length_tenths = 20, "it is 20 long, the part 27")]
#[case::another_size(|c: &mut Vec<raisedbody::shop::cutting::steps::Step>| c[3].stop_tenths = 39, "falls 39 by 30")]
#[case::a_cut_left_out(|c: &mut Vec<raisedbody::shop::cutting::steps::Step>| { c.truncate(6); }, "1 of piece 1 do not fall")]
fn spoilt_cuts_are_refused(#[case] spoil: fn(&mut Vec<raisedbody::shop::cutting::steps::Step>), #[case] words: &str) {
    let (job, plan) = good();
    let mut cuts = steps(&job.stock[0], job.kerf_tenths, &plan.patterns[0]);
    spoil(&mut cuts);
    let faults = step_faults(&job, &plan.patterns[0], &cuts);
    assert!(faults.iter().any(|fault| fault.contains(words)), "{faults:?}");
}

fn rects(all: &[(i64, i64, i64, i64)]) -> Vec<Rect> {
    let rect = |&(along_tenths, up_tenths, length_tenths, width_tenths): &_| Rect {
        along_tenths,
        up_tenths,
        length_tenths,
        width_tenths,
    };
    all.iter().map(rect).collect()
}

/// The first two are the patterns that no cut from edge to edge parts (elementary, by hand): pinwheels.
#[rstest]
#[case::pinwheel_of_five(&[(0, 0, 3, 2), (3, 0, 2, 3), (2, 3, 3, 2), (0, 2, 2, 3), (2, 2, 1, 1)], 0, false)]
#[case::pinwheel_of_three(&[(0, 0, 2, 1), (2, 0, 1, 2), (1, 2, 2, 1), (0, 1, 1, 2), (1, 1, 1, 1)], 0, false)]
#[case::pinwheel_without_its_middle(&[(0, 0, 3, 2), (3, 0, 2, 3), (2, 3, 3, 2), (0, 2, 2, 3)], 0, false)]
#[case::three_of_it(&[(0, 0, 3, 2), (3, 0, 2, 3), (2, 3, 3, 2)], 0, true)]
#[case::rows(&[(0, 0, 3, 2), (3, 0, 2, 2), (0, 2, 1, 3), (1, 2, 4, 3)], 0, true)]
#[case::no_room_for_the_kerf(&[(0, 0, 3, 2), (3, 0, 2, 2)], 1, false)]
#[case::room_for_the_kerf(&[(0, 0, 3, 2), (4, 0, 2, 2)], 1, true)]
#[case::one_over_the_other(&[(0, 0, 3, 2), (1, 1, 3, 2)], 0, false)]
fn edge_to_edge(#[case] all: &[(i64, i64, i64, i64)], #[case] kerf: i64, #[case] parted: bool) {
    assert_eq!(is_guillotine(&rects(all), kerf), parted);
}
