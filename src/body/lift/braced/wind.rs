//! The roof in the wind: every case that is looked at, the forces in it, and the wind at which the first thing gives way.

use nalgebra::{Vector3, Vector6};

use crate::body::stability::stagnation_pressure_pa;

use super::{ARM_MM, Forces, Stage, Stop, WINDS, row};
use crate::body::lift::{Lift, Support};

/// Wind beyond which nothing is worked out, m/s.
pub(super) const MOST_WIND_M_S: f64 = 40.0;

/// The largest wind at which everything holds, and what stops it.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct StopWind {
    /// m/s; none where it does not even hold in still air.
    pub wind_m_s: Option<f64>,
    /// What gives way first above it.
    pub by: Stop,
    /// The support that stands low then; none where all stand level.
    pub low: Option<String>,
}

impl StopWind {
    /// What gives way first, and with which support low.
    pub fn words(&self) -> String {
        match &self.low {
            Some(low) => format!("{}, with {low} low", self.by.words()),
            None => self.by.words(),
        }
    }
}

/// The most and the least of every force over several load cases, the planner's factor in them.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Extremes {
    /// Greatest load of each support, N.
    pub supports_most_n: Vec<f64>,
    /// Least load of each support where all stand level, N; nought where it lifts off.
    pub supports_least_n: Vec<f64>,
    /// Sideways over downwards at each foot: what friction must hold.
    pub foot_slopes: Vec<f64>,
    /// Greatest pull of each brace, N.
    pub tension_n: Vec<f64>,
    /// Greatest press of each brace, N.
    pub compression_n: Vec<f64>,
    /// How far the roof's centre moves sideways at most, mm.
    pub sway_mm: f64,
}

/// A load case: the wind's direction, its speed, the sign of the slope athwart it, factors.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Case {
    wind: [f64; 2],
    wind_m_s: f64,
    athwart: f64,
    /// On everything that pushes sideways or lifts.
    factor: f64,
    /// Which sharing of the weight.
    sharing: usize,
    /// Where the wind lifts the roof: so much of the way off its middle; none where it does not.
    lifts: Option<f64>,
}

impl Stage<'_> {
    /// Wind, slope and supports out of plumb as a push at the roof's centre.
    fn push(&self, case: &Case) -> Vector6<f64> {
        let (lift, c) = (self.lift, &self.lift.conditions);
        let to = Vector3::new(case.wind[0], case.wind[1], 0.0);
        let wind = &lift.wind;
        let pressure_n_m2 = stagnation_pressure_pa(wind.air_density_kg_m3, case.wind_m_s);
        let face_m2 = wind.side_m2 * case.wind[1].abs() + wind.ends_m2 * case.wind[0].abs();
        let arm = Vector3::from(wind.middle_mm) - Vector3::from(lift.roof.centre_mm);
        let mut push = row(to, &arm) * (pressure_n_m2 * wind.push * face_m2);
        if let Some(off) = case.lifts {
            let [along, across] = wind.size_mm;
            let windward = Vector3::new(case.wind[0] * along, case.wind[1] * across, 0.0) * (off * wind.uplift_off);
            push += row(Vector3::z(), &(arm - windward)) * wind.uplift_n(case.wind_m_s);
        }
        // Downhill the way the wind blows; athwart it either way.
        let [along, across] = slope(lift, case);
        push += Vector6::new(along, across, 0.0, 0.0, 0.0, 0.0) * lift.roof.weight_n();
        let plumb = athwart_too(case).map(|sign| sign * c.out_of_plumb);
        let aside = Vector3::new(plumb[0], plumb[1], 0.0);
        for (arm, dead) in self.arms_mm.iter().zip(self.dead_n()) {
            push += row(aside, arm) * dead.max(0.0);
        }
        push * case.factor
    }

    /// Every case that is looked at in a wind: from four sides, slope and lean athwart it both ways, the supports level and
    /// each low in turn; with the least of the weight and the wind lifting at the roof's middle and off it, and with everything
    /// grown by the factor and nothing lifting.
    fn cases(&self, wind_m_s: f64) -> Vec<Case> {
        let c = &self.lift.conditions;
        let mut cases = Vec::with_capacity(24 * self.sharings.len());
        // The unfactored weight is no case of its own.
        for (sharing, own) in self.sharings.iter().enumerate().skip(1) {
            let holding: &[Option<f64>] = if own.weight > c.holding_down { &[None] } else { &[Some(0.0), Some(1.0)] };
            for (wind, _) in WINDS {
                for athwart in [1.0, -1.0] {
                    for lifts in holding.iter().copied() {
                        cases.push(Case { wind, wind_m_s, athwart, factor: c.factor, sharing, lifts });
                    }
                }
            }
        }
        cases
    }

    /// The support that stands low in a case.
    fn low(&self, case: &Case) -> Option<&Support> {
        self.lift.supports.get(self.sharings.get(case.sharing)?.low?)
    }

    /// Loads in still air of a case, N; below nought what a support lacks to touch the roof.
    fn still(&self, case: &Case) -> &[f64] {
        self.sharings.get(case.sharing).map_or(&[], |sharing| &sharing.dead_n)
    }

    /// The most and the least of every force over all cases in a wind, the planner's factor in them.
    ///
    /// # Errors
    /// What gives way so that there is no balance.
    pub fn extremes(&self, wind_m_s: f64) -> Result<Extremes, Stop> {
        let (supports, braces) = (self.supports.len(), self.braces.len());
        let mut all = Extremes {
            supports_most_n: vec![0.0; supports],
            supports_least_n: vec![f64::INFINITY; supports],
            foot_slopes: vec![0.0; supports],
            tension_n: vec![0.0; braces],
            compression_n: vec![0.0; braces],
            sway_mm: 0.0,
        };
        let most = |all: &mut [f64], new: &[f64]| all.iter_mut().zip(new).for_each(|(a, b)| *a = a.max(*b));
        for case in self.cases(wind_m_s) {
            let forces = self.balance(&self.push(&case), case.sharing, true)?;
            most(&mut all.supports_most_n, &forces.supports_n);
            if self.low(&case).is_none() {
                all.supports_least_n.iter_mut().zip(&forces.supports_n).for_each(|(a, b)| *a = a.min(*b));
            }
            most(&mut all.foot_slopes, &self.slopes(&case, &forces));
            most(&mut all.tension_n, &forces.braces_n);
            most(&mut all.compression_n, &forces.braces_n.iter().map(|n| -n).collect::<Vec<_>>());
            all.sway_mm = all.sway_mm.max(forces.sway_mm[0].hypot(forces.sway_mm[1]));
        }
        Ok(all)
    }

    /// Forces of one load: the wind blowing to a side, without slope, lean of supports, uplift or factor, first order.
    ///
    /// # Errors
    /// What gives way so that there is no balance.
    pub fn wind_alone(&self, wind: [f64; 2], wind_m_s: f64) -> Result<Forces, Stop> {
        let face = self.lift.wind;
        let pressure = stagnation_pressure_pa(face.air_density_kg_m3, wind_m_s) * face.push;
        let force = Vector3::new(wind[0] * face.ends_m2, wind[1] * face.side_m2, 0.0) * pressure;
        let arm = Vector3::from(face.middle_mm) - Vector3::from(self.lift.roof.centre_mm);
        let turning = arm.cross(&force) / ARM_MM;
        let push = Vector6::new(force.x, force.y, force.z, turning.x, turning.y, turning.z);
        self.balance(&push, 0, false)
    }

    /// Sideways over downwards at each foot: the ground's slope, the strut out of plumb and what it leans by the sway.
    fn slopes(&self, case: &Case, forces: &Forces) -> Vec<f64> {
        let c = &self.lift.conditions;
        let ([along, across], plumb) = (slope(self.lift, case), athwart_too(case));
        let own = |lean: &[f64; 2]| {
            let x = case.factor * (along + c.out_of_plumb * plumb[0]) + lean[0];
            let y = case.factor * (across + c.out_of_plumb * plumb[1]) + lean[1];
            x.hypot(y)
        };
        forces.leans.iter().map(own).collect()
    }

    /// What gives way in a case, if anything. Capacities that are not known hold nothing up.
    fn gives_way(&self, case: &Case) -> Option<Stop> {
        let lift = self.lift;
        if lift.conditions.factor * lift.wind.uplift_n(case.wind_m_s)
            >= lift.conditions.holding_down * lift.roof.weight_n()
        {
            return Some(Stop::Uplift);
        }
        let forces = match self.balance(&self.push(case), case.sharing, true) {
            Ok(forces) => forces,
            Err(stop) => return Some(stop),
        };
        let (slopes, still, level) = (self.slopes(case, &forces), self.still(case), self.low(case).is_none());
        for (i, support) in lift.supports.iter().enumerate() {
            let name = || support.name.clone();
            let load = forces.supports_n[i];
            // With one low others may come free and be shimmed; what then carries must hold, all level none may lift.
            if level && still[i] > 0.0 && load <= 0.0 {
                return Some(Stop::LiftsOff(name()));
            }
            if support.capacity_n.is_some_and(|most| load > most) {
                return Some(Stop::Support(name()));
            }
            if load > 0.0 && slopes[i] > lift.conditions.friction {
                return Some(Stop::Slides(name()));
            }
        }
        for (brace, force) in lift.braces.iter().zip(&forces.braces_n) {
            if brace.tension_n.is_some_and(|most| *force > most) {
                return Some(Stop::Tension(brace.name.clone()));
            }
            if brace.compression_n.is_some_and(|most| -force > most) {
                return Some(Stop::Compression(brace.name.clone()));
            }
        }
        None
    }

    /// The largest wind, to 0.1 m/s below, at which everything holds with the planner's factor.
    ///
    /// Straps that go slack and supports that lift off make the answer bend: in each case the wind is raised by 2 m/s until
    /// something gives way, and the place between is halved. A case is not followed beyond what another stopped at.
    pub fn stop_wind(&self) -> StopWind {
        let low = |case: &Case| self.low(case).map(|support| support.name.clone());
        let leans = self.leaning_factor().is_none_or(|factor| factor < self.lift.conditions.factor);
        if leans {
            return StopWind { wind_m_s: None, by: Stop::LeansOver, low: None };
        }
        let still = self.cases(0.0).into_iter().find_map(|case| Some((self.gives_way(&case)?, low(&case))));
        if let Some((by, low)) = still {
            return StopWind { wind_m_s: None, by, low };
        }
        let (mut least, mut by, mut stands_low) = (MOST_WIND_M_S, Stop::Nothing, None);
        for case in self.cases(0.0) {
            let at = |wind_m_s: f64| self.gives_way(&Case { wind_m_s, ..case });
            let mut holds = 0.0;
            let found = loop {
                let wind = f64::min(holds + 2.0, least);
                match at(wind) {
                    Some(stop) => break Some((wind, stop)),
                    None if wind >= least => break None,
                    None => holds = wind,
                }
            };
            let Some((mut fails, mut stop)) = found else { continue };
            while fails - holds > 0.01 {
                let middle = f64::midpoint(holds, fails);
                match at(middle) {
                    Some(earlier) => (fails, stop) = (middle, earlier),
                    None => holds = middle,
                }
            }
            (least, by, stands_low) = (holds, stop, low(&case));
        }
        let wind_m_s = if by == Stop::Nothing { least } else { (least * 10.0).floor() / 10.0 };
        StopWind { wind_m_s: Some(wind_m_s), by, low: stands_low }
    }
}

/// The ground's slope in a case, along and across: downhill the way the wind blows.
fn slope(lift: &Lift, case: &Case) -> [f64; 2] {
    let [x, y] = athwart_too(case);
    [lift.conditions.slope_along * x, lift.conditions.slope_across * y]
}

/// Signs of what pushes with the wind and athwart it, along and across.
fn athwart_too(case: &Case) -> [f64; 2] {
    // One of the two is nought, and there the sign athwart counts.
    case.wind.map(|along| if along.abs() > 0.0 { along } else { case.athwart })
}
