//! Laws that hold for every evaluation, tried on the example plans: mirror, gauge, conservation, round trip, units.
// What is evaluated twice must be the same number, not a close one.

use raisedbody::body::masses::{Change, Group};
use raisedbody::check::Check;
use raisedbody::plan::{Evaluation, JointCase, Plan, compare};
use raisedbody::quantity::Kind;
use raisedbody::shop::quote::Basis;
use rstest::rstest;
use rust_decimal::{Decimal, RoundingStrategy};
use toml::{Table, Value};

fn plan(name: &str) -> Plan {
    Plan::read(format!("examples/{name}.toml")).unwrap()
}

fn changed(plan: &Plan, changes: &str) -> Plan {
    plan.replace(&changes.parse().unwrap()).unwrap()
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1.0)
}

#[rstest]
fn evaluating_twice_gives_the_same(#[values("mobile_library", "workshop_bus")] name: &str) {
    assert_eq!(plan(name).evaluate().unwrap(), plan(name).evaluate().unwrap());
    let plan = plan(name);
    assert_eq!(plan.evaluate().unwrap(), plan.clone().evaluate().unwrap());
}

#[rstest]
fn a_plan_written_out_reads_back_equal(#[values("mobile_library", "workshop_bus")] name: &str) {
    let plan = plan(name);
    let again = Plan::from_text(&plan.to_text(), ".".as_ref()).unwrap();
    assert_eq!(again, plan);
    assert_eq!(again.evaluate().unwrap(), plan.evaluate().unwrap());
    assert_eq!(changed(&plan, ""), plan);
    // There and back again.
    let heavier = changed(&plan, "skin.gauge = 16");
    assert_ne!(heavier, plan);
    assert_eq!(changed(&heavier, "skin.gauge = 18"), plan);
    // A thickness takes the gauge's place.
    let measured = changed(&plan, "skin.thickness = \"1.2 mm\"");
    assert_eq!((measured.file().skin.gauge, measured.file().skin.thickness.unwrap().mm()), (None, 1.2));
}

#[rstest]
fn a_plan_is_written_whole_or_not_at_all(#[values("mobile_library", "workshop_bus")] name: &str) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("plan.toml");
    let plan = plan(name);
    plan.write(&path, false).unwrap();
    assert_eq!(Plan::read(&path).unwrap(), plan);
    let other = changed(&plan, "name = \"other\"");
    assert!(other.write(&path, false).unwrap_err().to_string().contains("plan.toml"));
    assert_eq!(Plan::read(&path).unwrap(), plan);
    other.write(&path, true).unwrap();
    assert_eq!(Plan::read(&path).unwrap(), other);
    // A folder of that name cannot be replaced, nor a folder that is not there be written to: what was there stays.
    let taken = folder.path().join("taken");
    std::fs::create_dir(&taken).unwrap();
    std::fs::write(taken.join("inside"), "").unwrap();
    for (path, overwrite) in [(taken.clone(), true), (taken.clone(), false), (folder.path().join("no/plan.toml"), true)]
    {
        assert!(plan.write(&path, overwrite).unwrap_err().to_string().starts_with("cannot write"));
    }
    assert!(taken.join("inside").exists());
    // No half-written neighbour is left.
    let mut left: Vec<_> = std::fs::read_dir(folder.path()).unwrap().map(|f| f.unwrap().file_name()).collect();
    left.sort();
    assert_eq!(left, ["plan.toml", "taken"]);
}

// The order of the tables in the file does not matter; the order of a list's items is kept.
#[rstest]
fn tables_in_any_order(#[values("mobile_library", "workshop_bus")] name: &str) {
    let text = std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
    let starts: Vec<usize> = text.match_indices("\n[").map(|(at, _)| at + 1).chain([text.len()]).collect();
    let blocks: Vec<&str> = starts.windows(2).map(|w| &text[w[0]..w[1]]).collect();
    let (items, tables): (Vec<&str>, Vec<&str>) = blocks.iter().partition(|b| b.starts_with("[["));
    assert!(tables.len() > 4);
    let turned = tables.into_iter().rev().collect::<Vec<_>>().join("\n");
    let shuffled = format!("{}\n{}\n{turned}", &text[..starts[0]], items.join("\n"));
    let shuffled = Plan::from_text(&shuffled, ".".as_ref()).unwrap();
    assert_eq!(shuffled, plan(name));
    assert_eq!(shuffled.evaluate().unwrap(), plan(name).evaluate().unwrap());
}

/// The plan with left and right exchanged.
fn mirrored(plan: &Plan) -> Plan {
    let mut table = plan.table().clone();
    for list in ["fit_out", "removed"] {
        for item in table.get_mut(list).and_then(Value::as_array_mut).into_iter().flatten() {
            if let Some(Value::String(y)) = item.get_mut("y") {
                *y = Kind::Length.print(-Kind::Length.parse(y).unwrap());
            }
        }
    }
    plan.replace(&table).unwrap()
}

#[rstest]
fn a_mirrored_bus_mirrors(#[values("mobile_library", "workshop_bus")] name: &str) {
    let build = plan(name).evaluate().unwrap();
    let mirror = mirrored(&plan(name)).evaluate().unwrap();
    let (here, there) = (build.mass.left_share_after.unwrap(), mirror.mass.left_share_after.unwrap());
    assert!((here - 0.5).abs() > 1e-3, "the example must not be balanced, or this says nothing");
    assert!(close(here + there, 1.0));
    let (a, b) = (build.mass.after.unwrap().0, mirror.mass.after.unwrap().0);
    assert!(close(a.y_mm, -b.y_mm) && close(a.z_mm, b.z_mm) && close(a.x_mm, b.x_mm) && close(a.mass_kg, b.mass_kg));
    assert_eq!((&build.takeoff, &build.lines, &build.order), (&mirror.takeoff, &mirror.lines, &mirror.order));
    let verdicts = |e: &Evaluation| e.checks.iter().map(|c| (c.name.clone(), c.verdict)).collect::<Vec<_>>();
    assert_eq!(verdicts(&build), verdicts(&mirror));
}

#[rstest]
fn both_sides_are_skinned_alike(#[values("mobile_library", "workshop_bus")] name: &str) {
    let build = plan(name).evaluate().unwrap();
    let skins =
        build.items.iter().filter(|i| matches!(i.group, Group::Skin | Group::Frame | Group::Strip) && i.y_mm != 0.0);
    let moment: f64 = skins.filter(|i| i.name != "seats").map(|i| i.mass_kg * i.y_mm).sum();
    assert!(moment.abs() < 1e-6, "{moment} kg mm to one side");
}

#[rstest]
fn thicker_sheet_adds_mass_and_no_holes(#[values("mobile_library", "workshop_bus")] name: &str) {
    let builds: Vec<Evaluation> = [20, 18, 16, 14]
        .iter()
        .map(|g| changed(&plan(name), &format!("skin.gauge = {g}\nskin.lifting_factor = \"1\"")).evaluate().unwrap())
        .collect();
    for pair in builds.windows(2) {
        let (thin, thick) = (&pair[0], &pair[1]);
        assert!(thick.mass.skin_kg > thin.mass.skin_kg && thick.mass.added_kg > thin.mass.added_kg);
        assert!(thick.mass.after.unwrap().0.z_mm > thin.mass.after.unwrap().0.z_mm, "the skin hangs high");
        // A thicker cap goes round its corners with less sheet; its rivets stay as many.
        let holes = |e: &Evaluation| e.lines.iter().map(|l| (l.id.clone(), l.holes_mm.len())).collect::<Vec<_>>();
        assert_eq!((thick.takeoff.rivets, holes(thick)), (thin.takeoff.rivets, holes(thin)));
        if thick.end_caps.is_none() {
            assert_eq!((&thick.takeoff, &thick.lines), (&thin.takeoff, &thin.lines));
        }
        // By one rule set that speaks of both, a joint is never used more, but for the sheet's own weight and what it pulls
        // when it is colder than its frame.
        // Lines round a cap's corners are spaced a little otherwise there.
        let same = |one: &JointCase| {
            thick.joints.iter().find(|other| other.lines == one.lines && close(other.pitch_mm, one.pitch_mm))
        };
        for (one, other) in thin.joints.iter().filter_map(|one| Some((one, same(one)?))) {
            let more = other.shear_n / one.shear_n;
            assert!(more >= 1.0 && (other.tension_n / one.tension_n - 1.0).abs() < 0.01, "{more}");
            for (a, b) in one.reports.iter().zip(&other.reports) {
                if let (Some(thin), Some(thick)) = (a.utilisation(), b.utilisation()) {
                    assert!(thick <= thin * more * (1.0 + 1e-12), "{}: {thin} to {thick}", a.method);
                }
            }
        }
        let (a, b) = (thin.quote.as_ref(), thick.quote.as_ref());
        assert!(a.zip(b).is_none_or(|(a, b)| b.total > a.total));
    }
}

#[rstest]
fn mass_is_conserved(#[values("mobile_library", "workshop_bus")] name: &str) {
    let plan = plan(name);
    let build = plan.evaluate().unwrap();
    let coat = plan.catalogue().fallback_value("coat_areal_mass", Kind::ArealMass).unwrap();
    assert!(close(build.mass.skin_kg, build.takeoff.skin_area_m2 * (build.sheet_areal_mass_kg_m2 + coat)));
    let sum =
        |keep: &dyn Fn(Change) -> bool| build.items.iter().filter(|i| keep(i.change)).map(|i| i.mass_kg).sum::<f64>();
    assert!(close(build.mass.added_kg, sum(&|c| c == Change::Added)));
    assert!(close(build.mass.removed_kg, sum(&|c| c == Change::Removed)));
    assert!(close(build.mass.moved_kg, build.items.iter().find(|i| i.name == "roof").unwrap().mass_kg));
    let [before, after] = [build.mass.before, build.mass.after].map(|b| b.unwrap().0.mass_kg);
    assert!(close(after, before + build.mass.added_kg - build.mass.removed_kg));
    for (axles, mass) in [(build.mass.axles_before_kg, before), (build.mass.axles_after_kg, after)] {
        let (front, rear) = axles.unwrap();
        assert!(close(front + rear, mass));
    }
    let own: f64 = plan.file().fit_out.iter().map(|i| i.mass.kg()).sum();
    assert!(close(build.mass.fit_out_kg, own));
    // The blanks hold all that stays on the bus.
    assert!(build.takeoff.sheet_area_m2 >= build.takeoff.skin_area_m2 - 1e-6);
    assert_eq!(build.takeoff.sheets, build.skins.sheets.len() + build.skins.ends.len());
}

#[test]
fn quote_lines_sum_to_the_total() {
    let build = plan("mobile_library").evaluate().unwrap();
    let quote = build.quote.unwrap();
    assert_eq!(quote.lines.iter().map(|l| l.amount).sum::<Decimal>(), quote.total);
    for line in &quote.lines {
        let amount =
            (line.quantity * line.unit_price).round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero);
        let amount = if line.note.starts_with("least charge") { line.amount } else { amount };
        assert_eq!(line.amount, amount, "{}", line.name);
    }
    // Overhead on the materials and labour, margin on all that.
    let share = |name: &str| quote.lines.iter().position(|l| l.name == name).unwrap();
    for name in ["overhead", "margin"] {
        let above: Decimal = quote.lines[..share(name)].iter().map(|l| l.amount).sum();
        assert_eq!(quote.lines[share(name)].unit_price, above);
    }
    let hours: f64 = build.tasks.iter().map(|t| t.hours).sum();
    let quoted: Decimal = quote.lines.iter().filter(|l| l.basis == Basis::Labour).map(|l| l.quantity).sum();
    // Each task's hours are rounded to a thousandth.
    assert!((quoted - Decimal::try_from(hours).unwrap()).abs() < Decimal::new(15, 3));
    assert_eq!((quote.open_items.len(), quote.currency), (0, "USD"));
}

#[test]
fn what_has_no_price_is_an_open_item() {
    let text = std::fs::read_to_string("examples/mobile_library.toml").unwrap();
    let text = text.replacen("rivet = \"0.74 USD\"\n", "", 1).replacen("labour = \"85 USD/h\"\n", "", 1);
    let text = text.replacen("pilot_bit = \"3.20 USD\"\n", "", 1);
    let quote = Plan::from_text(&text, ".".as_ref()).unwrap().evaluate().unwrap().quote.unwrap();
    assert_eq!(quote.open_items, ["rivets, spares included", "pilot bits", "labour"]);
    assert!(quote.total_text().ends_with("USD + open items"));
    assert!(plan("workshop_bus").evaluate().unwrap().quote.is_none());
}

#[test]
fn kept_windows_keep_their_sheets_away() {
    let base = plan("workshop_bus");
    for kept in ["[]", "[3]", "[2, 3, 6, 7]", "[2, 3, 4, 5, 6, 7]"] {
        let plan = changed(&base, &format!("raise.windows_kept = {kept}"));
        let build = plan.evaluate().unwrap();
        let windows = &plan.file().raise.windows_kept;
        for window in 2..=7u32 {
            let i = window as usize - 1;
            let middle_mm = f64::midpoint(build.survey.posts_mm[i], build.survey.posts_mm[i + 1]);
            let lowest =
                build.skins.sheets.iter().filter(|s| s.x0_mm < middle_mm && middle_mm < s.x1_mm).map(|s| s.z0_mm);
            let lowest = lowest.fold(f64::INFINITY, f64::min);
            let (h, edge_mm) = (&build.survey.heights, 2.5 * 6.4);
            let expected = if windows.contains(&window) { h.window_top_mm } else { h.window_bottom_mm };
            assert!(close(lowest, expected - edge_mm), "window {window} of {kept}: sheet down to {lowest}");
        }
        assert_eq!(build.raised.windows_deleted, 6 - windows.len());
        assert_eq!(build.takeoff.windows_removed, 2 * (6 - windows.len()));
    }
}

#[test]
fn own_rows_replace_those_of_the_catalogue_and_show() {
    let row = "{ system = \"zinc-coated steel\", gauge = 18, thickness = \"1.5 mm\", source = \"own\", standing = \"given by the user\" }";
    let default = "{ key = \"edge_suction\", value = \"3\", meaning = \"x\", source = \"own\", standing = \"given by the user\" }";
    let base = plan("mobile_library");
    let own = changed(&base, &format!("catalogue.rows = {{ gauge = [{row}], default = [{default}] }}"));
    let (plain, build) = (base.evaluate().unwrap(), own.evaluate().unwrap());
    assert!(plain.overrides.is_empty());
    assert_eq!(
        build.overrides,
        ["gauge zinc-coated steel 18: replaced by your own row", "default edge_suction: replaced by your own row"]
    );
    assert_eq!(build.sheet_thickness_mm, 1.5);
    assert!(build.mass.skin_kg > plain.mass.skin_kg);
    // Behind the front edge, with what passes and the pressure inside.
    let air = &build.loads.air;
    assert!(close(build.loads.suction_pa(), (3.0 + air.passing + air.inside) * build.loads.stagnation_pa));
    // The same from a file beside the plan, which becomes part of the plan.
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("own.toml"), format!("gauge = [{row}]\ndefault = [{default}]")).unwrap();
    let text = base.to_text() + "\n[catalogue]\nfiles = [\"own.toml\"]";
    let read = Plan::from_text(&text, folder.path()).unwrap();
    assert_eq!(read.evaluate().unwrap(), build);
    drop(folder);
    assert_eq!(Plan::from_text(&read.to_text(), ".".as_ref()).unwrap(), read);
}

/// Every length, mass and force in the other system of units.
fn other_units(value: &mut Value) {
    let systems = [
        (Kind::Length, "mm", 1.0, "in", 25.4),
        (Kind::Mass, "kg", 1.0, "lb", 0.453_592_37),
        (Kind::Force, "N", 1.0, "lbf", 4.448_221_615_260_5),
    ];
    match value {
        Value::Table(table) => table.iter_mut().for_each(|(_, inner)| other_units(inner)),
        Value::Array(items) => items.iter_mut().for_each(other_units),
        Value::String(text) => {
            for (kind, metric, _, inch, factor) in systems {
                let Ok(number) = kind.parse(text) else { continue };
                let was_metric = text.ends_with('m') || text.ends_with(metric);
                *text = if was_metric { format!("{} {inch}", number / factor) } else { format!("{number} {metric}") };
                return;
            }
        }
        _ => {}
    }
}

#[rstest]
fn the_units_it_is_written_in_change_nothing(#[values("mobile_library", "workshop_bus")] name: &str) {
    let mut table = Value::Table(plan(name).table().clone());
    other_units(&mut table);
    let table: Table = table.as_table().unwrap().clone();
    let other = Plan::from_text(&table.to_string(), ".".as_ref()).unwrap();
    assert_ne!(other, plan(name), "nothing was rewritten");
    let (a, b) = (plan(name).evaluate().unwrap(), other.evaluate().unwrap());
    let numbers = |e: &Evaluation| {
        let (t, m) = (&e.takeoff, &e.mass);
        let after = m.after.unwrap();
        let mut all = vec![t.skin_area_m2, t.line_length_m, t.sealant_l, t.inserts.total_m];
        all.extend(t.coats.iter().map(|coat| coat.paint_l));
        all.extend([
            m.added_kg,
            m.removed_kg,
            m.moved_kg,
            after.0.x_mm,
            after.0.z_mm,
            after.1.z_mm,
            e.raised.headroom_mm,
        ]);
        all.extend(e.joints.iter().flat_map(|j| [j.shear_n, j.tension_n, j.pitch_mm, j.tributary_mm]));
        all.extend(
            e.joints.iter().flat_map(|j| &j.reports).flat_map(|r| r.checks.iter().filter_map(Check::utilisation)),
        );
        all.extend(e.checks.iter().flat_map(|c| [c.demand, c.capacity]).flatten());
        all
    };
    let (left, right) = (numbers(&a), numbers(&b));
    assert_eq!(left.len(), right.len());
    for (x, y) in left.iter().zip(&right) {
        assert!(close(*x, *y), "{x} and {y}");
    }
    assert_eq!((a.takeoff.rivets, a.takeoff.sheets, a.verdict()), (b.takeoff.rivets, b.takeoff.sheets, b.verdict()));
}

#[test]
fn compare_puts_what_differs_first() {
    let (light, heavy) =
        (plan("mobile_library"), changed(&plan("mobile_library"), "skin.gauge = 16\nraise.height = \"350 mm\""));
    let table = compare(&[("18", &light), ("16", &heavy)]).unwrap();
    assert_eq!(table.differences.iter().map(|d| d.0.as_str()).collect::<Vec<_>>(), ["raise.height", "skin.gauge"]);
    assert_eq!(table.differences[1].1, ["18", "16"]);
    assert_eq!(table.metrics.len(), 2);
    assert!(compare(&[]).is_err() && compare(&[("a", &light), ("a", &heavy)]).is_err());
}
