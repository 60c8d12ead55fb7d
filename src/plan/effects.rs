//! What the raise does to mass, stability, crosswind and running cost, before and after; yardsticks; reminders.

use crate::body::masses::{Balance, MassItem};
use crate::body::measures::{BodyMeasures, raised_length_mm};
use crate::body::raise::RaisedBody;
use crate::body::road_load::{drag_n, power_kw};
use crate::body::stability::{
    GRAVITY_M_S2, Measure, RollSprings, SHARE_OF_RIGID, SideWind, Stance, YARDSTICKS, Yardstick,
};
use crate::check::{Check, Level, Standing, Term, Verdict, significant, term};
use crate::error::Problem;
use crate::quantity::road_speed;

use super::resolve::Resolved;
use super::results::{Effect, HeightRange, MassSummary, Reminder, Span};

const SPRINGS_MISSING: &str = "vehicle.roll_stiffness and vehicle.roll_axis_height are not in the plan";
const SPRINGS_TOO_SOFT: &str = "the springs do not hold it upright: the weight times the height of its centre over the \
                                roll axis is no less than the roll stiffness";

fn stance(track_mm: f64, b: Balance) -> Stance {
    Stance { track_mm, mass_kg: b.mass_kg, cg_height_mm: b.z_mm, cg_offset_mm: b.y_mm }
}

/// A result on springs at the two heights of the centre of gravity.
pub(super) fn on_springs(
    r: &Resolved,
    (low, high): (Balance, Balance),
    f: impl Fn(RollSprings, Stance) -> Result<f64, Problem>,
) -> Option<HeightRange> {
    let (springs, track_mm) = r.springs.zip(r.track_mm)?;
    let at = |b: Balance| f(springs, stance(track_mm, b)).ok();
    Some(HeightRange { low: at(low)?, high: at(high)? })
}

/// One row of the table: results with the same inputs before and after, one pair for each case.
fn effect(
    (name, unit): (&'static str, &'static str),
    cases: &[(Option<f64>, Option<f64>)],
    standing: Standing,
    note: impl Into<String>,
) -> Effect {
    Effect {
        name,
        unit,
        before: Span::of(cases.iter().map(|case| case.0)),
        after: Span::of(cases.iter().map(|case| case.1)),
        change: Span::of(cases.iter().map(|(before, after)| before.zip(*after).map(|(b, a)| a - b))),
        standing,
        note: note.into(),
    }
}

/// How a value is known that the plan may have left out.
fn known(r: &Resolved, field: &str) -> Standing {
    r.assumed.iter().find(|a| a.field == field).map_or(Standing::Given, |a| a.standing)
}

/// A range of coefficients in words.
fn coefficients((low, high): (f64, f64)) -> String {
    if low < high { format!("{low} to {high}") } else { low.to_string() }
}

/// The two heights of the centre of gravity as cases.
fn heights(before: Option<HeightRange>, after: Option<HeightRange>) -> [(Option<f64>, Option<f64>); 2] {
    [(before.map(|h| h.low), after.map(|h| h.low)), (before.map(|h| h.high), after.map(|h| h.high))]
}

/// Every quantity that the raise changes, before and after.
pub(super) fn effects(
    r: &Resolved,
    raised: &RaisedBody,
    body: &BodyMeasures,
    items: &[MassItem],
    mass: &MassSummary,
) -> Vec<Effect> {
    let mut rows = masses(r, items, mass);
    rows.extend(stability(r, items, mass));
    rows.extend(crosswind(r, items, mass));
    rows.extend(running_cost(r, raised, body));
    rows
}

fn of_items(items: &[MassItem]) -> Standing {
    items.iter().map(|item| item.standing).fold(Standing::Given, Standing::with)
}

fn masses(r: &Resolved, items: &[MassItem], mass: &MassSummary) -> Vec<Effect> {
    let (standing, missing) = (of_items(items), "axle weights, wheelbase or rear overhang are not in the plan");
    let note = |text: String| if mass.before.is_some() { text } else { missing.to_owned() };
    let pair = |f: &dyn Fn(Balance) -> f64| {
        let [before, after] = [mass.before, mass.after];
        [(before.map(|b| f(b.0)), after.map(|b| f(b.0))), (before.map(|b| f(b.1)), after.map(|b| f(b.1)))]
    };
    let axle = |f: &dyn Fn((f64, f64)) -> f64| [(mass.axles_before_kg.map(f), mass.axles_after_kg.map(f))];
    let share = |b: Option<(Balance, Balance)>| b.zip(r.track_mm).map(|(b, track_mm)| b.0.left_share(track_mm));
    let fit_out = mass.fit_out_words().unwrap_or_else(|| "no fit-out in the plan".to_owned());
    let balanced = "the empty bus is taken as balanced";
    vec![
        effect(("unloaded mass", "kg"), &pair(&|b| b.mass_kg), standing, note(fit_out)),
        effect(("centre of gravity, forward", "mm"), &pair(&|b| b.x_mm), standing, note("of the rear face".to_owned())),
        effect(("centre of gravity, left", "mm"), &pair(&|b| b.y_mm), standing, note(balanced.to_owned())),
        effect(
            ("centre of gravity, height", "mm"),
            &pair(&|b| b.z_mm),
            standing.with(r.cg.standing),
            note(r.cg.origin.clone()),
        ),
        effect(("front axle", "kg"), &axle(&|a| a.0), standing, note(String::new())),
        effect(("rear axle", "kg"), &axle(&|a| a.1), standing, note(String::new())),
        effect(
            ("share on the left wheels", ""),
            &[(share(mass.before), share(mass.after))],
            standing,
            note(if r.track_mm.is_some() { balanced } else { "the track is not in the plan" }.to_owned()),
        ),
    ]
}

/// What stands in the way of a result that needs track and weights, and springs if asked for.
fn missing(r: &Resolved, mass: &MassSummary, with_springs: bool) -> Option<&'static str> {
    if mass.before.is_none() || r.track_mm.is_none() {
        return Some("track, axle weights, wheelbase or rear overhang are not in the plan");
    }
    match (with_springs, r.springs, mass.threshold_before_g, mass.threshold_after_g) {
        (true, None, _, _) => Some(SPRINGS_MISSING),
        (true, Some(_), before, after) if before.is_none() || after.is_none() => Some(SPRINGS_TOO_SOFT),
        _ => None,
    }
}

fn stability(r: &Resolved, items: &[MassItem], mass: &MassSummary) -> Vec<Effect> {
    let standing = of_items(items).with(r.cg.standing);
    let row = |name, with_springs, before, after, note: &str| {
        effect(name, &heights(before, after), standing, missing(r, mass, with_springs).unwrap_or(note))
    };
    let rigid = format!("rigid: springs and tyres lean first; {}", yardsticks_met(Measure::TiltAngle, "deg", mass));
    let sprung = format!(
        "small angles, one roll axis; lash, the order in which wheels lift and tyre crush left out: the real threshold is \
         lower; {}",
        yardsticks_met(Measure::RolloverThreshold, "g", mass)
    );
    vec![
        row(
            ("static stability factor", ""),
            false,
            mass.stability_before,
            mass.stability_after,
            "T/2h, track between the mid-lines of the wheels, of the pairs for twin tyres",
        ),
        row(("tilt angle", "deg"), false, mass.tilt_before_deg, mass.tilt_after_deg, &rigid),
        row(
            ("roll rate", "deg/g"),
            true,
            mass.roll_rate_before_deg_g,
            mass.roll_rate_after_deg_g,
            "lean for a lateral acceleration of 1 g, small angles",
        ),
        row(("rollover threshold", "g"), true, mass.threshold_before_g, mass.threshold_after_g, &sprung),
    ]
}

/// Wind square to the side before and after: unloads a side for a moment in a gust, overturns when steady.
fn crosswind(r: &Resolved, items: &[MassItem], mass: &MassSummary) -> Vec<Effect> {
    let (survey, rise_mm) = (&r.survey, r.raise.height_mm);
    let raised_mm = raised_length_mm(survey, &r.raise);
    let crown_mm = survey.heights.crown_mm;
    let old = (survey.length_mm * (crown_mm - r.air.skirt_mm), f64::midpoint(crown_mm, r.air.skirt_mm));
    let band = (raised_mm * rise_mm, crown_mm + rise_mm / 2.0);
    let new = (old.0 + band.0, (old.0 * old.1 + band.0 * band.1) / (old.0 + band.0));
    let speed = |b: Balance, (area_mm2, centre_mm): (f64, f64), coefficient: f64, gust: bool| {
        let air_density_kg_m3 = r.loads.air_density_kg_m3;
        let wind = SideWind { area_m2: area_mm2 / 1e6, centre_mm, coefficient, air_density_kg_m3 };
        let at = stance(r.track_mm?, b);
        let steady = wind.unloading_m_s(at, r.springs, 1.0).ok()?;
        if !gust {
            return Some(steady);
        }
        wind.unloading_m_s(at, r.springs, r.air.gust_overshoot).ok().map(|speed| speed.min(steady))
    };
    let cases = |gust: bool| -> Vec<(Option<f64>, Option<f64>)> {
        let coefficients = [r.air.side_force.0, r.air.side_force.1];
        let at = |b: Option<(Balance, Balance)>| b.map_or([None, None], |(low, high)| [Some(low), Some(high)]);
        let heights = at(mass.before).into_iter().zip(at(mass.after));
        heights
            .flat_map(|(before, after)| coefficients.map(|c| (before, after, c)))
            .map(|(before, after, c)| {
                (before.and_then(|b| speed(b, old, c, gust)), after.and_then(|b| speed(b, new, c, gust)))
            })
            .collect()
    };
    let standing = of_items(items).with(r.cg.standing).with(r.air.side_standing).with(known(r, "survey.crown"));
    let row = |name, gust, on_springs: &str| {
        let words = if r.springs.is_some() { on_springs } else { "rigid, gust and steady wind alike, an upper bound" };
        let why = if r.springs.is_some() { String::new() } else { format!(": {SPRINGS_MISSING}") };
        let mut row = effect((name, "m/s"), &cases(gust), standing, "");
        row.note = missing(r, mass, r.springs.is_some()).map_or_else(
            || {
                let from = row.after.map_or_else(String::new, |a| format!("after from {}; ", road_speed(a.least)));
                format!(
                    "{from}at rest, wind square to a side of {:.1} m2 before and {:.1} m2 after, side-force coefficient \
                     {}; {words}{why}",
                    old.0 / 1e6,
                    new.0 / 1e6,
                    coefficients(r.air.side_force),
                )
            },
            str::to_owned,
        );
        row
    };
    vec![
        row("crosswind gust that unloads the wheels of a side", true, "sudden gust, lean swings past the steady one"),
        row("crosswind that overturns", false, "steady wind, no balance left once a side is unloaded"),
    ]
}

/// Drag and what it costs; only the air, so that the change is the cost of the raise.
fn running_cost(r: &Resolved, raised: &RaisedBody, body: &BodyMeasures) -> Vec<Effect> {
    let air = &r.air;
    let areas = (body.before.frontal_area_m2, body.after.frontal_area_m2);
    let drag = |coefficient: f64, area_m2: f64| drag_n(coefficient, area_m2, r.loads.air_density_kg_m3, air.cruise_m_s);
    let cases = |f: &dyn Fn(f64) -> f64| {
        [air.drag.0, air.drag.1].map(|c| (Some(f(drag(c, areas.0))), Some(f(drag(c, areas.1)))))
    };
    let coefficient = coefficients(air.drag);
    let roof = known(r, "survey.crown").with(known(r, "vehicle.skirt_height"));
    let dense = known(r, "default air_density");
    let (drag_standing, fuel_standing) =
        (air.drag_standing.with(roof).with(dense), air.fuel_standing.with(roof).with(dense));
    let speed = format!(
        "at {} in still air, drag coefficient {coefficient}; rolling, hills and starts not included",
        road_speed(air.cruise_m_s)
    );
    let overall = (Some(r.survey.heights.overall_mm), Some(raised.heights.overall_mm));
    let width = (Some(r.survey.width_mm), Some(r.survey.width_mm));
    vec![
        effect(("overall height", "mm"), &[overall], Standing::Given, "roof fittings included"),
        effect(("overall width", "mm"), &[width], Standing::Given, "the raise does not change it; mirrors left out"),
        effect(
            ("frontal area", "m2"),
            &[(Some(areas.0), Some(areas.1))],
            roof,
            "section above the lower edge of the sides; wheels and the gap below left out",
        ),
        effect(("drag", "N"), &cases(&|n| n), drag_standing, speed.clone()),
        effect(("power against drag", "kW"), &cases(&|n| power_kw(n, air.cruise_m_s)), drag_standing, speed.clone()),
        effect(("fuel against drag", "L/100 km"), &cases(&|n| air.driveline.fuel_l_100km(n)), fuel_standing, speed),
    ]
}

/// The worse bound of tilt angle and rollover threshold against published levels, none of which binds this vehicle.
pub(super) fn yardstick_checks(r: &Resolved, items: &[MassItem], mass: &MassSummary) -> Vec<Check> {
    // That of another country says little here; the table of effects names it all the same.
    let of_here = |y: &&Yardstick| y.place.is_none_or(|place| r.places.iter().any(|p| p.place == place));
    YARDSTICKS.iter().filter(of_here).map(|yardstick| yardstick_check(r, items, mass, yardstick)).collect()
}

fn yardstick_check(r: &Resolved, items: &[MassItem], mass: &MassSummary, yardstick: &Yardstick) -> Check {
    let (name, unit, formula, reason, sprung) = match yardstick.measure {
        Measure::TiltAngle if r.springs.is_some() => (
            "tilt angle",
            "deg",
            "least of atan((T/2 − |y|) / h) and the arc tangent of (T/2 − |y| K/(K − W h_s)) / (h + W h_s²/(K − W h_s))",
            "on springs, greatest height of the centre of gravity; lash, the order in which wheels lift and tyre crush \
             are left out: the vehicle tips at a smaller angle than this",
            true,
        ),
        Measure::TiltAngle => (
            "tilt angle",
            "deg",
            "atan((T/2 − |y|) / h)",
            "rigid body, greatest height of the centre of gravity; springs and tyres lean first: the vehicle tips at a \
             smaller angle than this",
            false,
        ),
        Measure::RolloverThreshold => (
            "rollover threshold",
            "g",
            "(T/2 − |y| K/(K − W h_s)) / (h + W h_s²/(K − W h_s))",
            "on springs, greatest height of the centre of gravity; lash, the order in which wheels lift and tyre crush \
             are left out: the real threshold is lower",
            true,
        ),
    };
    let clause = "a yardstick; no duty after conversion";
    let standing = of_items(items).with(r.cg.standing).with(yardstick.standing);
    let range = measured(yardstick.measure, mass);
    let demand = (Some(yardstick.level), range.map(|h| h.low.min(h.high)), unit);
    let check = Check::compare(name, clause, demand, Level::Stated, standing)
        .at(yardstick.source)
        .by(formula, terms(r, mass, sprung));
    match missing(r, mass, sprung) {
        Some(why @ SPRINGS_TOO_SOFT) => check.demoted(Verdict::Fails, why),
        Some(why) => check.because(why),
        None => {
            let binds = format!("binds {}, not a converted bus; {reason}", yardstick.binds);
            match Met::of(yardstick, mass) {
                Some(open @ (Met::Depends | Met::RigidOnly)) => {
                    check.demoted(Verdict::NotAssessed, format!("{}; it {binds}", open.words()))
                }
                Some(Met::No) if check.verdict == Verdict::Fails => {
                    check.because(format!("the yardstick is not met; it {binds}"))
                }
                _ => check.because(format!("it {binds}")),
            }
        }
    }
}

/// What a yardstick is held against, at the lowest and the highest centre of gravity after the raise. On springs a vehicle
/// tips at the angle whose tangent is its rollover threshold.
fn measured(measure: Measure, mass: &MassSummary) -> Option<HeightRange> {
    match (measure, mass.tilt_after_deg, mass.threshold_after_g) {
        (Measure::RolloverThreshold, _, threshold) => threshold,
        (Measure::TiltAngle, Some(rigid), Some(g)) => Some(HeightRange {
            low: rigid.low.min(g.low.atan().to_degrees()),
            high: rigid.high.min(g.high.atan().to_degrees()),
        }),
        (Measure::TiltAngle, rigid, None) => rigid,
        (Measure::TiltAngle, None, Some(_)) => None,
    }
}

/// Whether a level is met over the range of heights of the centre of gravity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Met {
    Yes,
    No,
    Depends,
    RigidOnly,
}

impl Met {
    fn of(yardstick: &Yardstick, mass: &MassSummary) -> Option<Self> {
        let (range, level) = (measured(yardstick.measure, mass)?, yardstick.level);
        // The rigid angle bounds the real one from above: it shows that a level is missed, and only with room to spare
        // that it is met.
        let rigid = yardstick.measure == Measure::TiltAngle && mass.threshold_after_g.is_none();
        let roomy = if rigid { (level.to_radians().tan() / SHARE_OF_RIGID).atan().to_degrees() } else { level };
        Some(match (range.low >= level, range.high >= level) {
            (true, true) if range.low.min(range.high) >= roomy => Self::Yes,
            (true, true) => Self::RigidOnly,
            (false, false) => Self::No,
            _ => Self::Depends,
        })
    }

    fn words(self) -> &'static str {
        match self {
            Self::Yes => "met",
            Self::No => "not met",
            Self::Depends => "met or not, by where in its range the centre of gravity is: weigh the bus",
            Self::RigidOnly => {
                "met by the rigid body, yet a vehicle on springs tips earlier, tractor-tankers at about three quarters of its \
                 lateral acceleration (SAE 2003-01-3385): write vehicle.roll_stiffness and roll_axis_height"
            }
        }
    }
}

/// The yardsticks of a measure, and whether each is met after the raise.
fn yardsticks_met(measure: Measure, unit: &str, mass: &MassSummary) -> String {
    let of = YARDSTICKS.iter().filter(|y| y.measure == measure).map(|y| {
        let met = Met::of(y, mass).map_or("not known", Met::words);
        format!("{} {} {unit}, binds {}: {met}", y.source, significant(y.level), y.binds)
    });
    format!("yardsticks, none for a converted bus: {}", of.collect::<Vec<_>>().join("; "))
}

fn terms(r: &Resolved, mass: &MassSummary, sprung: bool) -> Vec<Term> {
    let Some((track_mm, (low, high))) = r.track_mm.zip(mass.after) else { return Vec::new() };
    let worst = if high.z_mm >= low.z_mm { high } else { low };
    let mut terms = vec![term("T", track_mm, "mm"), term("y", worst.y_mm, "mm"), term("h", worst.z_mm, "mm")];
    if let Some(springs) = r.springs.filter(|_| sprung) {
        terms.extend([
            term("K", springs.stiffness_n_m_rad, "Nm/rad"),
            term("W", worst.mass_kg * GRAVITY_M_S2, "N"),
            term("h_s", worst.z_mm - springs.axis_height_mm, "mm"),
        ]);
    }
    terms
}

/// Lamps, labels and notices that a new height touches; of the plan's places, or of all where it names none.
pub(super) fn reminders(r: &Resolved, raised: &RaisedBody) -> Vec<Reminder> {
    if raised.heights.overall_mm <= r.survey.heights.overall_mm {
        return Vec::new();
    }
    let goes = |start: &str| r.places.is_empty() || r.places.iter().any(|place| place.place.starts_with(start));
    let remind = |about, text, source, standing| Reminder { about, text, source, standing };
    let mut all = Vec::new();
    if goes("US") {
        all.push(remind(
            "lamps",
            "clearance and identification lamps of a vehicle 80 in wide or more stand as near the top as practicable: a \
             raised roof moves them",
            "FMVSS 108 (49 CFR 571.108), United States",
            Standing::Memory,
        ));
        all.push(remind(
            "alterer's label",
            "an alterer before the first retail sale leaves the old label and adds one that says who altered it, when, \
             and that it conforms as altered, with new ratings and type where they change",
            "49 CFR 567.7, United States",
            Standing::Read,
        ));
        all.push(remind(
            "weight label",
            "on a used vehicle only the original or final-stage maker or an alterer sets the gross ratings; who modifies \
             it may add a label with the loaded weight that is right for it",
            "NHTSA interpretation letter, baker2.crs, United States",
            Standing::Read,
        ));
    }
    if goes("EU") || goes("GB") {
        all.push(remind(
            "lamps",
            "end-outline marker lamps of a vehicle wider than 2.1 m show its full width and stand near its full height: a \
             raised roof moves them",
            "UN R48",
            Standing::Memory,
        ));
    }
    if goes("GB") && raised.heights.overall_mm > 3000.0 {
        all.push(remind(
            "in-cab height notice",
            "above 3.0 m of overall travelling height a notice of the height stands where the driver sees it",
            "Road Vehicles (Construction and Use) Regulations 1986, regulation 10, Great Britain",
            Standing::Memory,
        ));
    } else {
        all.push(remind(
            "in-cab height notice",
            "write the new height, rounded up, where the driver sees it",
            "common practice, no source",
            Standing::CommonPractice,
        ));
    }
    all
}
