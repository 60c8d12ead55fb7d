//! Mass and centre of gravity by first moments and the lever rule: three cases worked by hand, and conservation.

use proptest::prelude::*;
use raisedbody::body::masses::{Balance, Change, Group, MassItem};
use raisedbody::check::Standing;

fn item(change: Change, mass_kg: f64, (x_mm, y_mm, z_mm): (f64, f64, f64)) -> MassItem {
    let name = "item".to_owned();
    MassItem { name, group: Group::FitOut, change, mass_kg, x_mm, y_mm, z_mm, standing: Standing::Given }
}

// By hand: 7600 kg at 1.10 m and 180 kg at 2.95 m: (7600 × 1.10 + 180 × 2.95) / 7780 = 1.1428 m.
#[test]
fn mass_on_top_raises_the_centre() {
    let bus = Balance { mass_kg: 7600.0, x_mm: 0.0, y_mm: 0.0, z_mm: 1100.0 };
    let after = bus.after(&[item(Change::Added, 180.0, (0.0, 0.0, 2950.0))]);
    assert!((after.mass_kg - 7780.0).abs() < 1e-9);
    assert!((after.z_mm - 1142.8).abs() < 0.05);
}

// By hand: wheelbase 6.22 m, 2800 and 4800 kg; 180 kg at 3.9 m *behind the front axle* put 180 × 3.9/6.22 = 112.9 kg on
// the rear: 2867.1 and 4912.9 kg. Here stations run forward from the body's rear face, with the rear axle at any
// overhang: the same place is at overhang + 6220 - 3900.
#[test]
fn lever_rule_with_either_datum() {
    for overhang_mm in [0.0, 2450.0, 3100.0] {
        let bus = Balance::from_axles(2800.0, 4800.0, overhang_mm, 6220.0, 1100.0);
        let x_mm = overhang_mm + 6220.0 - 3900.0;
        let (front, rear) =
            bus.after(&[item(Change::Added, 180.0, (x_mm, 0.0, 1000.0))]).axle_loads_kg(overhang_mm, 6220.0);
        assert!((front - 2867.1).abs() < 0.05 && (rear - 4912.9).abs() < 0.05, "{front} {rear}");
    }
}

// By hand: a roof of 400 kg in 8000 kg that rises by 508 mm lifts the centre by 400 × 508/8000 = 25.4 mm, whatever its
// own height, and moves it nowhere else.
#[test]
fn a_lifted_roof_raises_the_centre() {
    let bus = Balance { mass_kg: 8000.0, x_mm: 4000.0, y_mm: 10.0, z_mm: 1200.0 };
    for z_mm in [0.0, 2700.0] {
        let after = bus.after(&[item(Change::Moved { rise_mm: 508.0 }, 400.0, (4100.0, 0.0, z_mm))]);
        assert!((after.z_mm - 1225.4).abs() < 1e-9);
        assert!((after.x_mm - 4000.0).abs() < 1e-9 && (after.y_mm - 10.0).abs() < 1e-9);
        assert!((after.mass_kg - 8000.0).abs() < 1e-9);
    }
}

#[test]
fn only_what_is_moved_rises() {
    let rises = [Change::Added, Change::Removed, Change::Moved { rise_mm: 508.0 }].map(Change::rise_mm);
    assert_eq!(rises, [0.0, 0.0, 508.0]);
}

// Behind the rear axle mass lifts the front: 1000 kg at 1 m behind it, wheelbase 4 m: 250 kg off the front.
#[test]
fn overhang_unloads_the_front() {
    let bus = Balance::from_axles(2000.0, 3000.0, 2000.0, 4000.0, 1000.0);
    let (front, rear) = bus.after(&[item(Change::Added, 1000.0, (1000.0, 0.0, 0.0))]).axle_loads_kg(2000.0, 4000.0);
    assert!((front - 1750.0).abs() < 1e-9 && (rear - 4250.0).abs() < 1e-9);
}

// Half and half in the middle; y = track/2 puts all on the left wheels.
#[test]
fn left_share_by_hand() {
    let at = |y_mm| Balance { mass_kg: 8000.0, x_mm: 0.0, y_mm, z_mm: 0.0 }.left_share(1950.0);
    assert!((at(0.0) - 0.5).abs() < 1e-12 && (at(97.5) - 0.55).abs() < 1e-12 && (at(-975.0)).abs() < 1e-12);
}

prop_compose! {
    fn place()(x in -1000.0..12_000.0f64, y in -1300.0..1300.0f64, z in 0.0..4000.0f64) -> (f64, f64, f64) {
        (x, y, z)
    }
}

prop_compose! {
    fn any_item()(kind in 0..3, mass in 0.0..800.0f64, at in place(), rise_mm in 0.0..900.0f64) -> MassItem {
        item([Change::Added, Change::Removed, Change::Moved { rise_mm }][kind as usize], mass, at)
    }
}

fn bus() -> Balance {
    Balance::from_axles(4200.0, 6800.0, 2450.0, 5280.0, 1200.0)
}

fn close(a: Balance, b: Balance) -> bool {
    let pairs = [(a.mass_kg, b.mass_kg), (a.x_mm, b.x_mm), (a.y_mm, b.y_mm), (a.z_mm, b.z_mm)];
    pairs.iter().all(|(a, b)| (a - b).abs() < 1e-6)
}

proptest! {
    #[test]
    fn mass_in_is_mass_out(items in prop::collection::vec(any_item(), 0..12)) {
        let sum = |change: Change| items.iter().filter(|i| i.change == change).map(|i| i.mass_kg).sum::<f64>();
        let after = bus().after(&items);
        prop_assert!((after.mass_kg - (bus().mass_kg + sum(Change::Added) - sum(Change::Removed))).abs() < 1e-6);
    }

    #[test]
    fn first_moments_balance(items in prop::collection::vec(any_item(), 0..12)) {
        let after = bus().after(&items);
        let change: f64 = items.iter().map(|i| match i.change {
            Change::Added => i.mass_kg * i.z_mm,
            Change::Removed => -i.mass_kg * i.z_mm,
            Change::Moved { rise_mm } => i.mass_kg * rise_mm,
        }).sum();
        prop_assert!((after.mass_kg * after.z_mm - (bus().mass_kg * bus().z_mm + change)).abs() < 1e-3);
    }

    #[test]
    fn what_is_added_and_taken_out_again_changes_nothing(mass in 0.0..5000.0f64, at in place()) {
        let items = [item(Change::Added, mass, at), item(Change::Removed, mass, at)];
        prop_assert!(close(bus().after(&items), bus()));
        prop_assert!(close(bus().after(&items[..1]).after(&items[1..]), bus()));
    }

    #[test]
    fn moving_is_removing_and_adding_higher(mass in 0.0..800.0f64, at in place(), rise_mm in 0.0..900.0f64) {
        let moved = bus().after(&[item(Change::Moved { rise_mm }, mass, at)]);
        let (x, y, z) = at;
        let swapped = bus().after(&[item(Change::Removed, mass, at), item(Change::Added, mass, (x, y, z + rise_mm))]);
        prop_assert!(close(moved, swapped));
    }

    #[test]
    fn the_order_of_items_is_irrelevant(items in prop::collection::vec(any_item(), 0..12), cut in 0usize..12) {
        let mut turned = items.clone();
        turned.rotate_left(cut.min(items.len()));
        prop_assert!(close(bus().after(&items), bus().after(&turned)));
        let (early, late) = items.split_at(cut.min(items.len()));
        prop_assert!(close(bus().after(&items), bus().after(early).after(late)));
    }

    #[test]
    fn axle_loads_sum_to_the_mass_and_give_it_back(
        front in 100.0..10_000.0f64, rear in 100.0..20_000.0f64, axle in 0.0..5000.0f64, base in 1500.0..9000.0f64,
    ) {
        let bus = Balance::from_axles(front, rear, axle, base, 1100.0);
        let (f, r) = bus.axle_loads_kg(axle, base);
        prop_assert!((f - front).abs() < 1e-6 && (r - rear).abs() < 1e-6);
        prop_assert!((f + r - bus.mass_kg).abs() < 1e-9);
    }
}
