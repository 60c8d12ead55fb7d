//! Loads of a stiff roof on its supports.

use nalgebra::{Cholesky, Matrix3, Vector3};

use crate::error::Problem;

/// How far the roof's centre lies inside the outline of its supports, mm: the way to the nearest edge it could tip over.
///
/// # Errors
/// Fewer than three supports, all in one line, or the centre on the outline or outside it.
pub fn tipping_margin_mm(centre_mm: [f64; 2], places_mm: &[[f64; 2]]) -> Result<f64, Problem> {
    let refuse = |problem: String| Err(Problem::contradiction("lift.supports", count_words(places_mm.len()), problem));
    if places_mm.len() < 3 {
        return refuse(
            "a roof on fewer than three supports tips over; place at least three, better four or more".to_owned(),
        );
    }
    let mut margin = f64::INFINITY;
    for (i, a) in places_mm.iter().enumerate() {
        for (j, b) in places_mm.iter().enumerate() {
            let run = [b[0] - a[0], b[1] - a[1]];
            let length = run[0].hypot(run[1]);
            // To the left of the way from a to b, mm.
            let left = |p: &[f64; 2]| (run[0] * (p[1] - a[1]) - run[1] * (p[0] - a[0])) / length;
            let edge = i != j
                && length > 1.0
                && places_mm.iter().all(|p| left(p) > -1e-6)
                && places_mm.iter().any(|p| left(p) > 1.0);
            if edge {
                margin = margin.min(left(&centre_mm));
            }
        }
    }
    let [x, y] = centre_mm;
    if margin.is_infinite() {
        return refuse("they stand in one line, over which the roof tips; place one beside it".to_owned());
    }
    if margin > 0.0 {
        return Ok(margin);
    }
    refuse(format!(
        "the roof's centre at x = {x:.0} mm, y = {y:.0} mm lies {:.0} mm outside their outline: it tips over; place a support \
         beyond it",
        -margin
    ))
}

fn count_words(count: usize) -> String {
    if count == 1 { "1 support".to_owned() } else { format!("{count} supports") }
}

/// Loads on supports of equal stiffness, N: the roof sinks onto them as one stiff plate. A support that would have to pull
/// carries nothing.
///
/// # Errors
/// As [`tipping_margin_mm`].
///
/// # Example
/// ```
/// use raisedbody::body::lift::even_loads_n;
/// // Three supports leave no choice: moments about any two of them.
/// let loads = even_loads_n(3000.0, [500.0, 0.0], &[[0.0, 500.0], [0.0, -500.0], [1000.0, 0.0]]).unwrap();
/// assert!((loads[2] - 1500.0).abs() < 1e-6);
/// ```
pub fn even_loads_n(weight_n: f64, centre_mm: [f64; 2], places_mm: &[[f64; 2]]) -> Result<Vec<f64>, Problem> {
    // The stiffness drops out where nothing lags.
    shared_loads_n(weight_n, centre_mm, places_mm, &vec![0.0; places_mm.len()], 1000.0)
}

/// Loads when one support stands lower than the others by so much, N.
///
/// # Errors
/// As [`tipping_margin_mm`]; a support that is not there.
pub fn lagging_loads_n(
    weight_n: f64,
    centre_mm: [f64; 2],
    places_mm: &[[f64; 2]],
    (which, lag_mm): (usize, f64),
    support_n_mm: f64,
) -> Result<Vec<f64>, Problem> {
    let mut low = vec![0.0; places_mm.len()];
    match low.get_mut(which) {
        Some(own) => *own = lag_mm,
        None => {
            let allowed = format!("0 to {}", places_mm.len().saturating_sub(1));
            return Err(Problem::out_of_range("which", which, allowed));
        }
    }
    shared_loads_n(weight_n, centre_mm, places_mm, &low, support_n_mm)
}

/// Loads on supports that are springs of one stiffness and stand lower by so much each, N: pressure only.
///
/// # Errors
/// As [`tipping_margin_mm`].
pub fn shared_loads_n(
    weight_n: f64,
    centre_mm: [f64; 2],
    places_mm: &[[f64; 2]],
    low_mm: &[f64],
    support_n_mm: f64,
) -> Result<Vec<f64>, Problem> {
    let settled = settled_loads_n(weight_n, centre_mm, places_mm, low_mm, support_n_mm)?;
    Ok(settled.into_iter().map(|n| n.max(0.0)).collect())
}

/// As [`shared_loads_n`], with what a support that hangs free lacks to touch the roof below nought: its gap times its stiffness.
///
/// The least energy of a rigid plate on springs that let go, by Newton's method; the energy is convex.
///
/// # Errors
/// As [`tipping_margin_mm`].
pub(super) fn settled_loads_n(
    weight_n: f64,
    centre_mm: [f64; 2],
    places_mm: &[[f64; 2]],
    low_mm: &[f64],
    support_n_mm: f64,
) -> Result<Vec<f64>, Problem> {
    tipping_margin_mm(centre_mm, places_mm)?;
    let size = places_mm.iter().map(|p| (p[0] - centre_mm[0]).hypot(p[1] - centre_mm[1])).fold(1.0, f64::max);
    let rows: Vec<Vector3<f64>> = places_mm
        .iter()
        .map(|p| Vector3::new(1.0, (p[0] - centre_mm[0]) / size, (p[1] - centre_mm[1]) / size))
        .collect();
    let settled = |sink: &Vector3<f64>| -> Vec<f64> {
        rows.iter().zip(low_mm).map(|(row, low)| (row.dot(sink) - low) * support_n_mm).collect()
    };
    let pressed = |sink: &Vector3<f64>| -> Vec<f64> { settled(sink).into_iter().map(|n| n.max(0.0)).collect() };
    let weight = Vector3::new(weight_n, 0.0, 0.0);
    let energy = |sink: &Vector3<f64>| {
        let springs: f64 = pressed(sink).iter().map(|n| 0.5 * n * n / support_n_mm).sum();
        springs - weight.dot(sink)
    };
    let lowest = low_mm.iter().copied().fold(0.0, f64::max);
    let mut sink = Vector3::new(lowest + weight_n / (support_n_mm * rows.len() as f64), 0.0, 0.0);
    for _ in 0..200 {
        let loads = pressed(&sink);
        let out = rows.iter().zip(&loads).fold(weight, |out, (row, n)| out - row * *n);
        if out.norm() <= 1e-11 * weight_n {
            break;
        }
        let stiffness = |slack: f64| {
            rows.iter().zip(&loads).fold(Matrix3::zeros(), |k, (row, n)| {
                k + row * row.transpose() * if *n > 0.0 { support_n_mm } else { slack * support_n_mm }
            })
        };
        // Supports that hang free lend a little stiffness where the others alone leave the plate loose.
        let solid = Cholesky::new(stiffness(0.0)).filter(|c| c.l().diagonal().min().powi(2) > 1e-9 * support_n_mm);
        let Some(solid) = solid.or_else(|| Cholesky::new(stiffness(1e-6))) else { break };
        let step = solid.solve(&out);
        let (now, mut part) = (energy(&sink), 1.0);
        while part > 1e-9 && energy(&(sink + step * part)) > now {
            part *= 0.5;
        }
        sink += step * part;
    }
    Ok(settled(&sink))
}

/// The greatest load that each support can get, however the others lag: a stiff roof can rock onto any three, N.
///
/// All sharings that statics allows (pressure only, in balance with the weight) form a polytope, at whose corners at most
/// three supports carry: the greatest of each support over those triples is exact.
///
/// # Errors
/// As [`tipping_margin_mm`]; more than 24 supports.
pub fn greatest_loads_n(weight_n: f64, centre_mm: [f64; 2], places_mm: &[[f64; 2]]) -> Result<Vec<f64>, Problem> {
    const MOST: usize = 24;
    if places_mm.len() > MOST {
        return Err(Problem::out_of_range("lift.supports", places_mm.len(), format!("at most {MOST}")));
    }
    tipping_margin_mm(centre_mm, places_mm)?;
    let twice = |a: [f64; 2], b: [f64; 2], c: [f64; 2]| (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    let mut most = vec![0.0_f64; places_mm.len()];
    for (i, a) in places_mm.iter().enumerate() {
        for (j, b) in places_mm.iter().enumerate().skip(i + 1) {
            for (k, c) in places_mm.iter().enumerate().skip(j + 1) {
                let whole = twice(*a, *b, *c);
                // In one line, or next to it: their loads are those of two of them.
                if whole.abs() < 1.0 {
                    continue;
                }
                let shares =
                    [twice(centre_mm, *b, *c), twice(*a, centre_mm, *c), twice(*a, *b, centre_mm)].map(|s| s / whole);
                if shares.iter().all(|s| *s > -1e-9) {
                    for (which, share) in [i, j, k].into_iter().zip(shares) {
                        most[which] = most[which].max(weight_n * share);
                    }
                }
            }
        }
    }
    Ok(most)
}

/// Load on a support when what it carries drops onto it through a gap, N: P (1 + √(1 + 2 k h / P)).
///
/// All the energy of the fall goes into the support, elastic: no damping, a roof that is stiff beside it.
///
/// # Example
/// ```
/// // Set down without a gap, but at once: twice the load.
/// assert_eq!(raisedbody::body::lift::drop_load_n(1000.0, 0.0, 5000.0), 2000.0);
/// ```
pub fn drop_load_n(load_n: f64, gap_mm: f64, support_n_mm: f64) -> f64 {
    if load_n > 0.0 { load_n * (1.0 + (1.0 + 2.0 * support_n_mm * gap_mm / load_n).sqrt()) } else { 0.0 }
}
