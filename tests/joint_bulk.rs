//! Arrays of laps against single laps, `Lap::check` being tested by the rules themselves; broadcasting by the rule that
//! `NumPy` publishes (numpy.org/doc/stable/user/basics.broadcasting.html): aligned at the last axis, equal lengths or 1.

use ndarray::{ArrayD, ArrayViewD, Axis, Dimension, IxDyn, Slice};
use proptest::prelude::*;
use raisedbody::catalogue::Catalogue;
use raisedbody::check::Verdict;
use raisedbody::mechanics::joint::aisi_s100::LowerAnchor;
use raisedbody::mechanics::joint::bulk::{self, Inputs, Outcomes, VERDICTS};
use raisedbody::mechanics::joint::{BlindRivet, Choices, Demand, Format, Lap, Method, RivetOrder};
use raisedbody::mechanics::sheet::{Sheet, SheetOrder};
use rstest::rstest;

/// Rounding in the last digits is no overload.
const FULL: f64 = 1.0 + 1e-12;

/// The numbers of one lap in the order of [`Inputs`]; not a number where one is not known.
type Cell = [f64; 13];

/// Passes by every method; the handbook's without its load away from the sheets.
const GOOD: Cell = [1.2, 1.2, 360.0, 360.0, 4.8, 4.9, 10.0, 50_000.0, 50_000.0, 60.0, 12.0, 300.0, 50.0];

fn good(method: Method) -> Cell {
    let mut cell = GOOD;
    cell[12] *= if method == Method::Handbook { 0.0 } else { 1.0 };
    cell
}

/// Invented bearing strengths, so that the handbook's form has something to work with.
fn choices(panel_edge: bool) -> Choices {
    Choices { panel_edge, handbook_bearing_mpa: Some([600.0, 800.0]), ..Choices::default() }
}

fn run(method: Method, a: &[ArrayViewD<'_, f64>; 13], choices: Choices) -> Result<Outcomes, (String, String)> {
    let inputs = Inputs {
        outer_mm: a[0].view(),
        inner_mm: a[1].view(),
        outer_fu_mpa: a[2].view(),
        inner_fu_mpa: a[3].view(),
        diameter_mm: a[4].view(),
        hole_mm: a[5].view(),
        head_mm: a[6].view(),
        rivet_shear_n: a[7].view(),
        rivet_tension_n: a[8].view(),
        pitch_mm: a[9].view(),
        edge_mm: a[10].view(),
        shear_n: a[11].view(),
        tension_n: a[12].view(),
        aluminium_rivets: ALUMINIUM_RIVETS,
        choices,
    };
    bulk::check(method, &inputs).map_err(|p| (p.path().to_owned(), p.to_string()))
}

fn views(arrays: &[ArrayD<f64>; 13]) -> [ArrayViewD<'_, f64>; 13] {
    arrays.each_ref().map(|array| array.view())
}

/// One column an input.
fn columns(cells: &[Cell]) -> [ArrayD<f64>; 13] {
    std::array::from_fn(|i| ArrayD::from_shape_fn(IxDyn(&[cells.len()]), |at| cells[at[0]][i]))
}

fn run_cells(method: Method, cells: &[Cell], choices: Choices) -> Outcomes {
    run(method, &views(&columns(cells)), choices).unwrap()
}

/// Verdict, utilisation (none where not a number) and governing check of every cell.
fn told(method: Method, outcomes: &Outcomes) -> Vec<(Verdict, Option<f64>, &'static str)> {
    let used = outcomes.utilisation.iter().map(|u| (!u.is_nan()).then_some(*u));
    let by = outcomes.governing.iter().map(|&g| bulk::names(method)[usize::from(g)]);
    outcomes.verdict.iter().zip(used).zip(by).map(|((&v, used), by)| (VERDICTS[usize::from(v)], used, by)).collect()
}

/// EN 1999-1-4 alone asks; the others must not mind.
const ALUMINIUM_RIVETS: bool = true;

fn single(method: Method, cell: &Cell, choices: Choices) -> (Lap, Demand) {
    let known = |value: f64| (!value.is_nan()).then_some(value);
    let catalogue = Catalogue::standard().unwrap();
    let sheet = |mm: f64, fu: f64| {
        let order = SheetOrder { thickness_mm: Some(1.0), ..SheetOrder::default() };
        let material = if method == Method::En1999_1_4 { "aluminium 5052" } else { "carbon steel" }.to_owned();
        Sheet { material, design_mm: mm, fu_mpa: known(fu), ..Sheet::new(&order, &catalogue, "").unwrap() }
    };
    let order = RivetOrder {
        diameter_mm: cell[4],
        hole_mm: Some(cell[5]),
        head_mm: known(cell[6]),
        shear_n: known(cell[7]),
        tension_n: known(cell[8]),
        body: ALUMINIUM_RIVETS.then(|| "aluminium alloy".to_owned()),
        ..RivetOrder::default()
    };
    let rivet = BlindRivet::new(&order, &catalogue, "").unwrap();
    let lap = Lap::new(sheet(cell[0], cell[2]), sheet(cell[1], cell[3]), rivet, cell[9], cell[10]).unwrap();
    (Lap { choices, ..lap }, Demand { shear_n: cell[11], tension_n: cell[12] })
}

fn maybe(known: impl Strategy<Value = f64> + 'static) -> BoxedStrategy<f64> {
    prop_oneof![9 => known, 1 => Just(f64::NAN)].boxed()
}

fn load() -> BoxedStrategy<f64> {
    prop_oneof![3 => 0.0..2000.0f64, 1 => 0.0..1e6f64, 1 => Just(0.0)].boxed()
}

/// A lap that can be: mostly within the rules' limits, sometimes beyond, sometimes with something unknown.
fn cell() -> impl Strategy<Value = Cell> {
    let diameter = prop_oneof![6 => 2.6..6.35f64, 1 => 1.5..12.0f64, 1 => Just(6.4)];
    diameter.prop_flat_map(|d| {
        let thickness = || prop_oneof![6 => 0.45..4.0f64, 1 => 0.15..6.0f64];
        let fu = || maybe(prop_oneof![6 => 200.0..550.0f64, 1 => 20.0..2000.0f64]);
        let hole = prop_oneof![6 => d..=d + 0.1, 1 => d..1.49 * d];
        let pitch = prop_oneof![6 => 3.0 * d..150.0, 1 => 1.0..1000.0f64];
        let edge = prop_oneof![6 => 1.5 * d..60.0, 1 => 1.0..300.0f64];
        let rivet = || maybe(prop_oneof![50.0..6000.0f64, 6000.0..100_000.0f64]);
        let sheets = (thickness(), thickness(), fu(), fu());
        (sheets, hole, maybe(1.21 * d..5.9 * d), rivet(), rivet(), pitch, edge, load(), load()).prop_map(
            move |((t1, t2, fu1, fu2), hole, head, shear, tension, pitch, edge, v, t)| {
                [t1, t2, fu1, fu2, d, hole, head, shear, tension, pitch, edge, v, t]
            },
        )
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn a_cell_is_what_its_single_lap_reports(
        cell in cell(),
        panel_edge: bool,
        steady_tension: bool,
        holes_may_stretch: bool,
        real_parts: bool,
    ) {
        let lower_anchor = if real_parts { LowerAnchor::RealParts } else { LowerAnchor::EqualParts };
        let choices = Choices { steady_tension, holes_may_stretch, lower_anchor, ..choices(panel_edge) };
        for method in Method::ALL {
            let (lap, demand) = single(method, &cell, choices);
            let report = lap.check(demand, method).unwrap();
            let governing = report.governing().unwrap().name.as_ref();
            let cell = told(method, &run_cells(method, &[cell], choices))[0];
            prop_assert_eq!(cell, (report.verdict(), report.utilisation(), governing), "{}", method);
            prop_assert_eq!(lap.utilisation(demand, method).unwrap(), report.utilisation(), "{}", method);
        }
    }
}

/// So too with three sheets, with lines side by side, and where metals or head are not what the rules are written for.
#[test]
fn the_utilisation_alone_is_that_of_the_report() {
    let changes: [fn(&mut Lap); 6] = [
        |_| (),
        |lap| lap.middle = Some(Sheet { design_mm: 0.9, ..lap.inner.clone() }),
        |lap| (lap.rows, lap.row_spacing_mm) = (2, Some(60.0)),
        |lap| (lap.rows, lap.row_spacing_mm) = (2, Some(5.0)),
        |lap| lap.inner.material = "copper".to_owned(),
        |lap| lap.rivet.countersunk = true,
    ];
    for (i, change) in changes.into_iter().enumerate() {
        for method in Method::ALL {
            let (mut lap, demand) = single(method, &good(method), choices(true));
            change(&mut lap);
            let report = lap.check(demand, method).unwrap();
            assert_eq!(lap.utilisation(demand, method).unwrap(), report.utilisation(), "{method}, {i}");
        }
    }
    let (lap, _) = single(Method::En1993_1_3, &GOOD, choices(true));
    assert!(lap.utilisation(Demand { shear_n: -1.0, tension_n: 0.0 }, Method::En1993_1_3).is_err());
}

// A strength used in full, give or take the last digits: both ways must draw the line at the same place.
#[test]
fn the_edge_of_a_strength_is_the_same_for_both() {
    for method in Method::ALL {
        let (lap, demand) = single(method, &GOOD, choices(false));
        let demand = Demand { tension_n: 0.0, ..demand };
        let most = demand.shear_n / lap.check(demand, method).unwrap().utilisation().unwrap();
        let mut seen = [0; 4];
        for step in -20..40 {
            let mut cell = GOOD;
            (cell[11], cell[12]) = (most * (1.0 + f64::from(step) * 1e-13), 0.0);
            let (lap, demand) = single(method, &cell, choices(false));
            let verdict = lap.check(demand, method).unwrap().verdict();
            assert_eq!(told(method, &run_cells(method, &[cell], choices(false)))[0].0, verdict, "{method}: {step}");
            seen[verdict as usize] += 1;
        }
        assert!(seen[Verdict::Passes as usize] > 0 && seen[Verdict::Fails as usize] > 0);
    }
}

/// A spread of values for one input: the good one and its neighbours.
fn spread(input: usize, shape: &[usize]) -> ArrayD<f64> {
    let mut count = 0.0;
    ArrayD::from_shape_simple_fn(IxDyn(shape), || {
        count += 1.0;
        // The fractional parts of a golden ratio's multiples are all different and evenly spread.
        GOOD[input] * (0.7 + 0.6 * (count * 0.618_033_988_75 + input as f64 * 0.1).fract())
    })
}

/// What broadcasting means, spelled out: every cell gathered by its own index.
fn gathered(arrays: &[ArrayViewD<'_, f64>; 13], shape: &[usize]) -> Vec<Cell> {
    ndarray::indices(IxDyn(shape))
        .into_iter()
        .map(|index| {
            arrays.each_ref().map(|array| {
                let own = index.slice().iter().skip(shape.len() - array.ndim()).zip(array.shape());
                let own: Vec<usize> = own.map(|(&at, &length)| if length == 1 { 0 } else { at }).collect();
                array[IxDyn(&own)]
            })
        })
        .collect()
}

fn broadcasts_to(arrays: &[ArrayViewD<'_, f64>; 13], shape: &[usize]) {
    for method in Method::ALL {
        let outcomes = run(method, arrays, choices(false)).unwrap();
        assert_eq!(outcomes.utilisation.shape(), shape);
        assert_eq!((outcomes.verdict.shape(), outcomes.governing.shape()), (shape, shape));
        let one_by_one = run_cells(method, &gathered(arrays, shape), choices(false));
        assert_eq!(told(method, &outcomes), told(method, &one_by_one));
    }
}

/// Inputs by their shapes; what is not named is a plain number.
fn shaped(shapes: &[(usize, Vec<usize>)]) -> [ArrayD<f64>; 13] {
    std::array::from_fn(|i| spread(i, shapes.iter().find(|(input, _)| *input == i).map_or(&[], |(_, shape)| shape)))
}

// 9 is the pitch, 10 the edge, 0 the outer sheet, 4 the rivet, 11 the shear.
#[rstest]
#[case::numbers_only(vec![], &[])]
#[case::row(vec![(9, vec![5])], &[5])]
#[case::one(vec![(9, vec![1])], &[1])]
#[case::row_and_column(vec![(9, vec![5]), (10, vec![4, 1])], &[4, 5])]
#[case::three_axes(vec![(9, vec![5]), (10, vec![4, 1]), (0, vec![3, 1, 1])], &[3, 4, 5])]
#[case::full_beside_column(vec![(0, vec![3, 4, 5]), (4, vec![4, 1]), (11, vec![3, 1, 5])], &[3, 4, 5])]
#[case::axes_of_one(vec![(0, vec![1, 4, 1]), (9, vec![1])], &[1, 4, 1])]
#[case::nothing(vec![(9, vec![0])], &[0])]
#[case::nothing_beside_a_column(vec![(9, vec![0]), (10, vec![3, 1])], &[3, 0])]
#[case::nothing_beside_one(vec![(9, vec![1]), (10, vec![0])], &[0])]
// More cells than are worked at a time, and more than one thread takes at a time.
#[case::long_row(vec![(9, vec![40_000]), (10, vec![40_000])], &[40_000])]
#[case::wide(vec![(9, vec![301]), (10, vec![150, 1])], &[150, 301])]
fn broadcasting_equals_loops(#[case] shapes: Vec<(usize, Vec<usize>)>, #[case] shape: &[usize]) {
    broadcasts_to(&views(&shaped(&shapes)), shape);
}

#[test]
fn views_in_any_order_are_read_as_they_are_indexed() {
    let arrays = shaped(&[(9, vec![5, 4]), (10, vec![8, 5])]);
    let mut turned = views(&arrays);
    turned[9].swap_axes(0, 1);
    turned[10].slice_axis_inplace(Axis(0), Slice::new(0, None, -2));
    broadcasts_to(&turned, &[4, 5]);
}

prop_compose! {
    /// Any shapes that broadcast: each input takes some of the last axes, whole or as one.
    fn any_shapes()(shape in prop::collection::vec(0usize..5, 0..5))(
        taken in prop::collection::vec((0..=shape.len(), prop::collection::vec(any::<bool>(), shape.len())), 13),
        shape in Just(shape),
    ) -> Vec<Vec<usize>> {
        taken.iter().map(|(axes, whole)| {
            (shape.len() - axes..shape.len()).map(|axis| if whole[axis] { shape[axis] } else { 1 }).collect()
        }).collect()
    }
}

proptest! {
    #[test]
    fn any_broadcast_equals_loops(shapes in any_shapes()) {
        let arrays: [ArrayD<f64>; 13] = std::array::from_fn(|i| spread(i, &shapes[i]));
        let axes = shapes.iter().map(Vec::len).max().unwrap();
        // The length of an axis is the one that is not 1, where there is one.
        let shape: Vec<usize> = (0..axes).map(|from_end| {
            let lengths = shapes.iter().filter_map(|own| own.iter().rev().nth(from_end).copied());
            lengths.filter(|&length| length != 1).max().unwrap_or(1)
        }).rev().collect();
        broadcasts_to(&views(&arrays), &shape);
    }
}

// The later of two arrays that do not fit is named, with its shape.
#[rstest]
#[case(vec![(0, vec![3]), (9, vec![4])], "pitch_mm", "[4]")]
#[case(vec![(0, vec![3]), (11, vec![3, 2])], "shear_n", "[3, 2]")]
#[case(vec![(4, vec![2, 1, 5]), (10, vec![3, 4, 5])], "edge_mm", "[3, 4, 5]")]
#[case(vec![(0, vec![3]), (12, vec![0])], "tension_n", "[0]")]
fn shapes_that_do_not_broadcast_are_errors(
    #[case] shapes: Vec<(usize, Vec<usize>)>,
    #[case] name: &str,
    #[case] shape: &str,
) {
    for method in Method::ALL {
        let (path, message) = run(method, &views(&shaped(&shapes)), choices(false)).unwrap_err();
        assert_eq!(path, name);
        assert!(message.contains(shape) && message.contains("does not broadcast"), "{message}");
    }
}

// A thousand of each input against a thousand of every other: beyond any memory, and beyond what can be counted.
#[rstest]
#[case(4)]
#[case(13)]
fn more_cells_than_memory_are_an_error(#[case] inputs: usize) {
    let long = |i: usize| (i, std::iter::once(1000).chain(std::iter::repeat_n(1, i)).collect());
    let arrays = shaped(&(0..inputs).map(long).collect::<Vec<_>>());
    let (path, message) = run(Method::AisiS100(Format::Allowable), &views(&arrays), choices(false)).unwrap_err();
    assert!(path == "shape" && message.contains("work in parts"), "{message}");
}

// Nothing that a lap cannot have, and nothing unknown, passes: each input broken alone.
#[rstest]
fn a_broken_cell_never_passes(
    #[values(f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, -1e-300, 0.0, -0.0, 5e-324, 1e300, f64::MAX)]
    broken: f64,
) {
    for method in Method::ALL {
        assert_eq!(told(method, &run_cells(method, &[good(method)], choices(false)))[0].0, Verdict::Passes);
        for input in 0..13 {
            // The handbook's form asks neither for a head nor for the rivet's tension.
            if method == Method::Handbook && matches!(input, 6 | 8) && broken.is_nan() {
                continue;
            }
            // A load of nought, or next to it, is no fault.
            if input >= 11 && (0.0..1.0).contains(&broken) {
                continue;
            }
            let mut cell = good(method);
            cell[input] = broken;
            let (verdict, used, _) = told(method, &run_cells(method, &[cell], choices(false)))[0];
            assert!(matches!(verdict, Verdict::NotAssessed | Verdict::OutsideRange), "input {input}: {verdict:?}");
            assert_eq!(used, None, "input {input}");
        }
    }
}

/// `SplitMix64`: enough to spread a million cells, the same every time.
struct Random(u64);

impl Random {
    fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    fn cell(&mut self) -> Cell {
        const BROKEN: [f64; 12] =
            [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, -3.0, 5e-324, 1e-300, 1e300, f64::MAX, 1.0, 1e6];
        // From half of what is good to one and a half of it, past the rules' limits on both sides, the hole by the rivet.
        let mut cell: Cell = std::array::from_fn(|i| GOOD[i] * (0.5 + self.unit()));
        cell[5] = cell[4] + 0.15 * self.unit();
        cell[11] *= if self.unit() < 0.1 { 20.0 } else { 1.0 };
        cell[12] *= if self.unit() < 0.5 { 0.0 } else { 1.0 };
        for value in &mut cell {
            if self.unit() < 0.04 {
                *value = BROKEN[(self.unit() * BROKEN.len() as f64) as usize];
            }
        }
        cell
    }
}

/// Whether all that is known lies within a rule set's limits; asked here in another way than the library does.
fn within(method: Method, c: &Cell) -> bool {
    let at_least = |value: f64, least: f64| value.is_nan() || least.is_nan() || value >= least - 2e-9;
    let spaced = at_least(c[9], 3.0 * c[4]) && at_least(c[10], 1.5 * c[4]);
    spaced
        && match method {
            Method::En1993_1_3 => {
                at_least(c[4] + 0.1, c[5])
                    && at_least(c[4], 2.6)
                    && at_least(6.4, c[4])
                    && c[..2].iter().all(|&t| at_least(t, 0.45) && at_least(4.0, t))
                    && c[2..4].iter().all(|&fu| at_least(550.0, fu))
            }
            Method::AisiS100(_) => {
                at_least(c[4], 2.03)
                    && at_least(6.35, c[4])
                    && at_least(c[4] + 0.4, c[5])
                    && c[..2].iter().all(|&t| at_least(t, 0.45) && at_least(4.76, t))
                    && c[2..4].iter().all(|&fu| at_least(550.0, fu))
            }
            Method::AisiS100Bolts(_) => {
                at_least(c[4] + 0.8, c[5])
                    && c[..2].iter().all(|&t| at_least(t, 0.61) && at_least(4.76, t))
                    && c[2..4].iter().all(|&fu| at_least(550.0, fu))
            }
            Method::En1999_1_4 => {
                let pulled = c[12] > 0.0;
                at_least(c[4] + 0.1, c[5])
                    && at_least(c[4], 2.6)
                    && at_least(6.4, c[4])
                    && at_least(c[10], 2.0 * c[4])
                    && c[..2].iter().all(|&t| at_least(t, 0.5) && at_least(6.0, t))
                    && (!pulled || (at_least(c[6], 9.5) && at_least(1.5, c[0])))
            }
            Method::Handbook => {
                let thickness = c[..2].iter().all(|&t| at_least(t, 0.18 * c[5]) && at_least(6.0, t));
                at_least(1.04 * c[4], c[5]) && at_least(c[10], 1.5 * c[5]) && thickness && at_least(0.0, c[12])
            }
        }
}

#[rstest]
fn a_million_broken_cells_never_pass_by_mistake(
    #[values(
        Method::En1993_1_3,
        Method::En1999_1_4,
        Method::AisiS100(Format::Allowable),
        Method::AisiS100Bolts(Format::Factored),
        Method::Handbook
    )]
    method: Method,
    #[values(false, true)] panel_edge: bool,
) {
    // What a rule set does not ask for may be unknown.
    let unasked = |cell: &Cell, input: usize| match method {
        Method::Handbook => matches!(input, 6 | 8),
        Method::En1999_1_4 => input == 6 && cell[12] == 0.0,
        _ => false,
    };
    let mut random = Random(u64::from(panel_edge));
    let mut seen = [0u32; 4];
    for _ in 0..2 {
        let cells: Vec<Cell> = std::iter::repeat_with(|| random.cell()).take(50_000).collect();
        for (cell, (verdict, used, by)) in
            cells.iter().zip(told(method, &run_cells(method, &cells, choices(panel_edge))))
        {
            seen[verdict as usize] += 1;
            let sound = match verdict {
                // The least that both rule sets ask: all known, and the rivet's own loads, undivided.
                Verdict::Passes => {
                    used.is_some_and(|u| (0.0..=FULL).contains(&u))
                        && within(method, cell)
                        && cell.iter().enumerate().all(|(i, v)| unasked(cell, i) || (v.is_finite() && *v >= 0.0))
                        && cell[11] <= cell[7]
                        && (cell[12] == 0.0 || cell[12] <= cell[8])
                }
                Verdict::Fails => used.is_none_or(|u| u > 1.0) && within(method, cell),
                Verdict::OutsideRange => used.is_none() && !within(method, cell),
                Verdict::NotAssessed => used.is_none_or(|u| u <= FULL),
            };
            assert!(sound, "{method}: {cell:?}: {verdict:?} at {used:?} by {by}");
        }
    }
    assert!(seen.iter().all(|&count| count > 1000), "every verdict is met: {seen:?}");
}
