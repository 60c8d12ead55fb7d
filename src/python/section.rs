//! The classes `Section` and `EffectiveSection`, and the functions `effective_width` and `skin_strips`.

use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::catalogue::Catalogue;
use crate::check::significant;
use crate::error::Problem;
use crate::mechanics::section::{
    self as core, Channel, Edge, Face, Hat, PlateWidth, Profile, Properties, RectangularTube, Rule, Zee, plate_width,
};
use crate::quantity::Kind;

use super::input::{Arguments, Pair, Quantity, Several, real};
use super::joint::given;
use super::output::{Columns, Dict, Recipe, quoted};

/// A point of a chain.
const POINT: [(&str, Kind); 2] = [("x", Kind::Length), ("y", Kind::Length)];

/// What a section was made from.
#[derive(Clone, PartialEq)]
enum Shape {
    Tube(RectangularTube),
    Hat(Hat),
    Zee(Zee),
    Channel(Channel),
    Chain { points_mm: Vec<[f64; 2]>, wall_mm: f64, radius_mm: f64, closed: bool },
}

impl Shape {
    fn name(&self) -> &'static str {
        match self {
            Self::Tube(_) => "tube",
            Self::Hat(_) => "hat",
            Self::Zee(_) => "zee",
            Self::Channel(_) => "channel",
            Self::Chain { .. } => "chain",
        }
    }

    fn profile(&self) -> Result<Profile, Vec<Problem>> {
        match self {
            Self::Tube(tube) => tube.profile(""),
            Self::Hat(hat) => hat.profile(""),
            Self::Zee(zee) => zee.profile(""),
            Self::Channel(channel) => channel.profile(""),
            Self::Chain { points_mm, wall_mm, radius_mm, closed } => {
                Profile::chain(points_mm, *wall_mm, *radius_mm, *closed, "")
            }
        }
    }

    fn kwargs<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let length = |mm: f64| Some(Kind::Length.print(mm));
        let radius = |mm: f64| length(mm).filter(|_| mm != 0.0);
        let two_flanges = |[depth, flange, wall, outer]: [f64; 4]| -> PyResult<_> {
            let (depth, flange, wall) = (length(depth), length(flange), length(wall));
            Ok(given!(py, "depth" = depth, "flange" = flange, "wall" = wall, "radius" = radius(outer)))
        };
        match self {
            Self::Tube(s) => Ok(given!(
                py,
                "depth" = length(s.depth_mm),
                "width" = length(s.width_mm),
                "wall" = length(s.wall_mm),
                "radius" = radius(s.outer_radius_mm),
            )),
            Self::Hat(s) => Ok(given!(
                py,
                "depth" = length(s.depth_mm),
                "crown" = length(s.crown_mm),
                "flange" = length(s.flange_mm),
                "wall" = length(s.wall_mm),
                "radius" = radius(s.outer_radius_mm),
            )),
            Self::Zee(s) => two_flanges([s.depth_mm, s.flange_mm, s.wall_mm, s.outer_radius_mm]),
            Self::Channel(s) => two_flanges([s.depth_mm, s.flange_mm, s.wall_mm, s.outer_radius_mm]),
            Self::Chain { points_mm, wall_mm, radius_mm, closed } => {
                let print = |mm: f64| Kind::Length.print(mm);
                let points: Vec<(String, String)> = points_mm.iter().map(|&[x, y]| (print(x), print(y))).collect();
                Ok(given!(
                    py,
                    "points" = Some(points),
                    "wall" = length(*wall_mm),
                    "radius" = radius(*radius_mm),
                    "closed" = Some(*closed).filter(|closed| *closed),
                ))
            }
        }
    }
}

/// A thin-walled section by the line method: its wall is taken as the mid-line with the thickness along it. Cannot be
/// changed.
///
/// ``Section.tube``, ``hat``, ``zee``, ``channel`` and ``chain`` make one; ``with_skin`` adds a strip of the sheet that it
/// is riveted to. Axes: x runs along the skin, y square to it and away from it; a post that bends out of the plane of the
/// skin bends about x. All walls count in full; what buckles before it yields, ``effective`` takes away.
///
/// What the method leaves out, each wall's stiffness about its own mid-line, makes second moments come out a little low:
/// 0.1 % for a square tube whose wall is a thirtieth of the side, 2 % at an eighth.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> post = rb.Section.tube("2 in", "1 in", "0.0598 in")
///     >>> round(post.area_mm2, 2), round(post.ix_mm4), round(post.torsion_mm4), round(post.mass_kg_m("7850 kg/m3"), 3)
///     (222.25, 74346, 57510, 1.745)
///     >>> bow = rb.Section.hat("40 mm", "50 mm", "20 mm", "1.5 mm", radius="4 mm")
///     >>> skinned = bow.with_skin("0.9 mm", "90 mm")
///     >>> skinned.torsion_mm4 > 100 * bow.torsion_mm4  # riveted to the skin it is a cell
///     True
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(Clone, PartialEq)]
pub(super) struct Section {
    shape: Shape,
    /// Thickness and width of the strip of skin, mm.
    skin_mm: Option<[f64; 2]>,
    profile: Profile,
    properties: Properties,
}

impl Section {
    fn of(given: &mut Arguments, shape: Shape) -> PyResult<Self> {
        given.readable()?;
        let refused = |problems| given.refused_as(&[("outer_radius", "radius")], problems);
        let profile = shape.profile().map_err(refused)?;
        Ok(Self { shape, skin_mm: None, properties: profile.properties(), profile })
    }

    fn bare(&self) -> PyResult<Self> {
        let shape = self.shape.clone();
        Self::of(&mut Arguments::default(), shape)
    }
}

#[pymethods]
impl Section {
    /// A rectangular tube; the torsion constant is that of a closed one, welded along its seam.
    ///
    /// Args:
    ///     depth: Outside depth, square to the skin.
    ///     width: Outside width, along the skin.
    ///     wall: Wall thickness; measure it, as gauges of tube differ from those of sheet.
    ///     radius: Outside radius of the corners; sharp where left out. Half of both sides makes it a round tube.
    ///
    /// Returns:
    ///     The section.
    ///
    /// Raises:
    ///     InputError: A size that no section has; a wall that leaves no hollow; a radius above half the smaller side.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[staticmethod]
    #[pyo3(signature = (depth, width, wall, radius = None))]
    fn tube(
        depth: Quantity<'_>,
        width: Quantity<'_>,
        wall: Quantity<'_>,
        radius: Option<Quantity<'_>>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let tube = RectangularTube {
            depth_mm: given.quantity("depth", Kind::Length, &depth)?,
            width_mm: given.quantity("width", Kind::Length, &width)?,
            wall_mm: given.quantity("wall", Kind::Length, &wall)?,
            outer_radius_mm: given.optional("radius", Kind::Length, radius.as_ref())?.unwrap_or_default(),
        };
        Self::of(&mut given, Shape::Tube(tube))
    }

    /// A hat: crown away from the skin, two webs square to it, two flanges turned outward that lie on it.
    ///
    /// Args:
    ///     depth: Outside depth, from the flanges' face on the skin to the crown's outer face.
    ///     crown: Outside width of the crown, over both webs.
    ///     flange: Width of each flange, from the web's outside face to the free edge.
    ///     wall: Wall thickness.
    ///     radius: Outside radius of the four bends; sharp where left out.
    ///
    /// Returns:
    ///     The section.
    ///
    /// Raises:
    ///     InputError: A size that no section has; a wall that leaves no hollow; a radius that the sides have no room for.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[staticmethod]
    #[pyo3(signature = (depth, crown, flange, wall, radius = None))]
    fn hat(
        depth: Quantity<'_>,
        crown: Quantity<'_>,
        flange: Quantity<'_>,
        wall: Quantity<'_>,
        radius: Option<Quantity<'_>>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let hat = Hat {
            depth_mm: given.quantity("depth", Kind::Length, &depth)?,
            crown_mm: given.quantity("crown", Kind::Length, &crown)?,
            flange_mm: given.quantity("flange", Kind::Length, &flange)?,
            wall_mm: given.quantity("wall", Kind::Length, &wall)?,
            outer_radius_mm: given.optional("radius", Kind::Length, radius.as_ref())?.unwrap_or_default(),
        };
        Self::of(&mut given, Shape::Hat(hat))
    }

    /// A zee without lips: a web square to the skin, one flange on the skin, the other turned the other way.
    ///
    /// Its principal axes are not x and y: unless the skin keeps it from it, it bends sideways too.
    ///
    /// Args:
    ///     depth: Outside depth, square to the skin.
    ///     flange: Outside width of each flange, over the web.
    ///     wall: Wall thickness.
    ///     radius: Outside radius of the two bends; sharp where left out.
    ///
    /// Returns:
    ///     The section.
    ///
    /// Raises:
    ///     InputError: A size that no section has; a radius that the sides have no room for.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[staticmethod]
    #[pyo3(signature = (depth, flange, wall, radius = None))]
    fn zee(
        depth: Quantity<'_>,
        flange: Quantity<'_>,
        wall: Quantity<'_>,
        radius: Option<Quantity<'_>>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let zee = Zee {
            depth_mm: given.quantity("depth", Kind::Length, &depth)?,
            flange_mm: given.quantity("flange", Kind::Length, &flange)?,
            wall_mm: given.quantity("wall", Kind::Length, &wall)?,
            outer_radius_mm: given.optional("radius", Kind::Length, radius.as_ref())?.unwrap_or_default(),
        };
        Self::of(&mut given, Shape::Zee(zee))
    }

    /// A channel without lips: a web square to the skin, one flange on the skin, the other turned the same way.
    ///
    /// Args:
    ///     depth: Outside depth, square to the skin.
    ///     flange: Outside width of each flange, over the web.
    ///     wall: Wall thickness.
    ///     radius: Outside radius of the two bends; sharp where left out.
    ///
    /// Returns:
    ///     The section.
    ///
    /// Raises:
    ///     InputError: A size that no section has; a radius that the sides have no room for.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[staticmethod]
    #[pyo3(signature = (depth, flange, wall, radius = None))]
    fn channel(
        depth: Quantity<'_>,
        flange: Quantity<'_>,
        wall: Quantity<'_>,
        radius: Option<Quantity<'_>>,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let channel = Channel {
            depth_mm: given.quantity("depth", Kind::Length, &depth)?,
            flange_mm: given.quantity("flange", Kind::Length, &flange)?,
            wall_mm: given.quantity("wall", Kind::Length, &wall)?,
            outer_radius_mm: given.optional("radius", Kind::Length, radius.as_ref())?.unwrap_or_default(),
        };
        Self::of(&mut given, Shape::Channel(channel))
    }

    /// Any strip bent at points.
    ///
    /// Args:
    ///     points: x and y of the mid-line's corners in order, such as ``[("0 mm", "0 mm"), ("0 mm", "40 mm")]``; where there
    ///         are bends, the points at which the flat parts would meet.
    ///     wall: Wall thickness.
    ///     radius: Radius of the mid-line at every corner: the inside radius and half the wall; sharp where left out.
    ///     closed: Joins the last point to the first.
    ///
    /// Returns:
    ///     The section.
    ///
    /// Raises:
    ///     InputError: Too few points, or more than 200; walls that cross or fold back; a radius that they have no room
    ///         for; sizes that no section has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///     TypeError: A point that is no pair.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> angle = rb.Section.chain([("0 mm", "30 mm"), ("0 mm", "0 mm"), ("20 mm", "0 mm")], wall="1.5 mm")
    ///     >>> angle.area_mm2
    ///     75.0
    #[staticmethod]
    #[pyo3(signature = (points, wall, radius = None, closed = false))]
    fn chain(
        points: Several<Pair<'_>>,
        wall: Quantity<'_>,
        radius: Option<Quantity<'_>>,
        closed: bool,
    ) -> PyResult<Self> {
        let mut given = Arguments::default();
        let point = |(i, point)| given.pair(&format!("points[{i}]"), POINT, point);
        let points_mm = points.0.iter().enumerate().map(point).collect::<PyResult<_>>()?;
        let wall_mm = given.quantity("wall", Kind::Length, &wall)?;
        let radius_mm = given.optional("radius", Kind::Length, radius.as_ref())?.unwrap_or_default();
        Self::of(&mut given, Shape::Chain { points_mm, wall_mm, radius_mm, closed })
    }

    /// The section riveted to a strip of skin, centred on what lies on the skin's side; both bend as one, without slip.
    ///
    /// An open section with two feet on the skin, as a hat has, closes to a cell with it, riveted along the middle of each
    /// foot; rivets that give way make its torsion constant less.
    ///
    /// Args:
    ///     thickness: Thickness of the skin.
    ///     width: Width of the strip that counts, both sides together; see ``skin_strips``.
    ///
    /// Returns:
    ///     The section with its strip.
    ///
    /// Raises:
    ///     InputError: A strip that no skin has; a section that has one already, or no flat wall on the skin's side.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (thickness, width))]
    fn with_skin(&self, thickness: Quantity<'_>, width: Quantity<'_>) -> PyResult<Self> {
        let mut given = Arguments::default();
        let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
        let width_mm = given.quantity("width", Kind::Length, &width)?;
        given.readable()?;
        let profile = self.profile.with_skin(thickness_mm, width_mm, "").map_err(|p| given.refused(p))?;
        let properties = profile.properties();
        Ok(Self { shape: self.shape.clone(), skin_mm: Some([thickness_mm, width_mm]), profile, properties })
    }

    /// What is left of the section when a moment about x compresses one side; the rules are from memory.
    ///
    /// Each compressed flat wall loses the part that its rule takes for its own stresses; the neutral axis moves until it is
    /// the centroid of what is left. The section is held against bending sideways, as by its skin. Bends count in full,
    /// and so does a strip of skin. Lips, shear and sideways buckling are not covered; no safety factor is in it.
    ///
    /// Args:
    ///     stress: Greatest compressive stress that the moment makes, at most `fy`.
    ///     fy: Yield strength.
    ///     method: Whose widths: ``"EN 1993-1-5"`` or ``"AISI S100"``, both for steel.
    ///     compressed: Which side the moment compresses: ``"away"`` from the skin, or the ``"skin"`` side.
    ///
    /// Returns:
    ///     The effective section.
    ///
    /// Raises:
    ///     InputError: A stress above yield; an unknown method or side; walls too slender or bends too large for the rule; a
    ///         wall that is held only by a lip or by a slight bend.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    ///
    /// Example:
    ///     >>> import raisedbody as rb
    ///     >>> bow = rb.Section.hat("40 mm", "80 mm", "20 mm", "0.9 mm")
    ///     >>> left = bow.effective("230 MPa", fy="230 MPa")
    ///     >>> crown = next(row for row in left.walls.rows() if row["wall"] == 2)
    ///     >>> round(crown["lambda"], 3), round(crown["rho"], 3)
    ///     (1.531, 0.559)
    #[pyo3(signature = (stress, fy, *, method = "EN 1993-1-5", compressed = "away"))]
    fn effective(
        &self,
        stress: Quantity<'_>,
        fy: Quantity<'_>,
        method: &str,
        compressed: &str,
    ) -> PyResult<EffectiveSection> {
        let mut given = Arguments::default();
        let stress_mpa = given.quantity("stress", Kind::Pressure, &stress)?;
        let fy_mpa = given.quantity("fy", Kind::Pressure, &fy)?;
        given.readable()?;
        let (rule, face) = (method.parse::<Rule>(), compressed.parse::<Face>());
        let (rule, compressed) = match (rule, face) {
            (Ok(rule), Ok(face)) => (rule, face),
            (rule, face) => return Err(given.refused(rule.err().into_iter().chain(face.err()).collect())),
        };
        let bending = core::Bending { stress_mpa, fy_mpa, compressed, rule };
        let core = self.profile.effective(&bending, "").map_err(|problems| given.refused(problems))?;
        Ok(EffectiveSection { section: self.clone(), bending, core })
    }

    /// Mass per length, kg/m, the strip of skin too.
    ///
    /// Args:
    ///     density: Density of the metal, such as ``"7850 kg/m3"``.
    ///
    /// Raises:
    ///     InputError: A density that no metal has.
    ///     QuantityError: A quantity without a unit, or with one of another kind.
    #[pyo3(signature = (density))]
    fn mass_kg_m(&self, density: Quantity<'_>) -> PyResult<f64> {
        let mut given = Arguments::default();
        let density_kg_m3 = given.quantity("density", Kind::Density, &density)?;
        given.readable()?;
        if !(500.0..=25_000.0).contains(&density_kg_m3) {
            let problem = Problem::out_of_range("density", density_kg_m3, "500 to 25000 kg/m3");
            return Err(given.refused(vec![problem]));
        }
        Ok(self.properties.mass_kg_m(density_kg_m3))
    }

    /// Shape: ``"tube"``, ``"hat"``, ``"zee"``, ``"channel"`` or ``"chain"``.
    #[getter]
    fn shape(&self) -> &str {
        self.shape.name()
    }

    /// Whether the walls enclose a cell; riveted to a skin an open section still counts as open here.
    #[getter]
    fn closed(&self) -> bool {
        self.profile.is_closed()
    }

    /// Thickness of the strip of skin, mm; None where there is none.
    #[getter]
    fn skin_thickness_mm(&self) -> Option<f64> {
        self.skin_mm.map(|[thickness, _]| thickness)
    }

    /// Width of the strip of skin, mm; None where there is none.
    #[getter]
    fn skin_width_mm(&self) -> Option<f64> {
        self.skin_mm.map(|[_, width]| width)
    }

    /// Area of metal, mm2.
    #[getter]
    fn area_mm2(&self) -> f64 {
        self.properties.area_mm2
    }

    /// Length of the mid-line, mm; of one bent strip its width before bending, on the mid-line.
    #[getter]
    fn developed_mm(&self) -> f64 {
        self.properties.developed_mm
    }

    /// Height of the centroid above the outer face on the skin's side, mm.
    #[getter]
    fn centroid_mm(&self) -> f64 {
        self.properties.centroid_mm
    }

    /// Distance of the centroid from the leftmost edge, mm.
    #[getter]
    fn centroid_x_mm(&self) -> f64 {
        self.properties.centroid_x_mm
    }

    /// Depth over the outer faces, mm.
    #[getter]
    fn depth_mm(&self) -> f64 {
        self.properties.depth_mm
    }

    /// Width over the outermost edges, mm.
    #[getter]
    fn width_mm(&self) -> f64 {
        self.properties.width_mm
    }

    /// Second moment about the axis along the skin, mm4.
    #[getter]
    fn ix_mm4(&self) -> f64 {
        self.properties.ix_mm4
    }

    /// Second moment about the axis square to the skin, mm4.
    #[getter]
    fn iy_mm4(&self) -> f64 {
        self.properties.iy_mm4
    }

    /// Product of the second moments, mm4.
    #[getter]
    fn ixy_mm4(&self) -> f64 {
        self.properties.ixy_mm4
    }

    /// The greater principal second moment, mm4.
    #[getter]
    fn i_major_mm4(&self) -> f64 {
        self.properties.i_major_mm4
    }

    /// The smaller principal second moment, mm4.
    #[getter]
    fn i_minor_mm4(&self) -> f64 {
        self.properties.i_minor_mm4
    }

    /// The principal axis of the greater second moment, counter-clockwise from x, degrees.
    #[getter]
    fn major_axis_deg(&self) -> f64 {
        self.properties.major_axis_deg
    }

    /// Elastic modulus about x at the outer face farther from the centroid, mm3.
    #[getter]
    fn sx_mm3(&self) -> f64 {
        self.properties.sx_mm3
    }

    /// Elastic modulus about x at the face on the skin's side, mm3.
    #[getter]
    fn sx_skin_mm3(&self) -> f64 {
        self.properties.sx_skin_mm3
    }

    /// Elastic modulus about x at the face away from the skin, mm3.
    #[getter]
    fn sx_away_mm3(&self) -> f64 {
        self.properties.sx_away_mm3
    }

    /// Elastic modulus about y at the outermost edge, mm3.
    #[getter]
    fn sy_mm3(&self) -> f64 {
        self.properties.sy_mm3
    }

    /// Torsion constant, mm4: Bredt's of the cell, and l t³ / 3 of every wall outside it.
    #[getter]
    fn torsion_mm4(&self) -> f64 {
        self.properties.torsion_mm4
    }

    /// Area that the mid-line of a closed section encloses, mm2; 0 for an open one.
    #[getter]
    fn enclosed_mm2(&self) -> f64 {
        self.properties.enclosed_mm2
    }

    /// The values by name, each ending in its unit; None for a strip of skin that is not there.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("shape", self.shape())?;
        dict.set_item("closed", self.closed())?;
        dict.set_item("skin_thickness_mm", self.skin_thickness_mm())?;
        dict.set_item("skin_width_mm", self.skin_width_mm())?;
        let p = &self.properties;
        for (name, value) in [
            ("area_mm2", p.area_mm2),
            ("developed_mm", p.developed_mm),
            ("centroid_mm", p.centroid_mm),
            ("centroid_x_mm", p.centroid_x_mm),
            ("depth_mm", p.depth_mm),
            ("width_mm", p.width_mm),
            ("ix_mm4", p.ix_mm4),
            ("iy_mm4", p.iy_mm4),
            ("ixy_mm4", p.ixy_mm4),
            ("i_major_mm4", p.i_major_mm4),
            ("i_minor_mm4", p.i_minor_mm4),
            ("major_axis_deg", p.major_axis_deg),
            ("sx_mm3", p.sx_mm3),
            ("sx_skin_mm3", p.sx_skin_mm3),
            ("sx_away_mm3", p.sx_away_mm3),
            ("sy_mm3", p.sy_mm3),
            ("torsion_mm4", p.torsion_mm4),
            ("enclosed_mm2", p.enclosed_mm2),
        ] {
            dict.set_item(name, value)?;
        }
        Ok(Dict(dict))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let mut parts = Vec::new();
        for (name, value) in self.shape.kwargs(py)? {
            parts.push(format!("{name}={}", value.repr()?));
        }
        let made = format!("Section.{}({})", self.shape.name(), parts.join(", "));
        let Some([thickness, width]) = self.skin_mm else { return Ok(made) };
        let print = |mm: f64| quoted(py, &Kind::Length.print(mm));
        Ok(format!("{made}.with_skin(thickness={}, width={})", print(thickness)?, print(width)?))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Recipe<'py>> {
        let (py, own) = (slf.py(), slf.get());
        let Some([thickness, width]) = own.skin_mm else {
            return Recipe::of_maker(slf.get_type().as_any(), own.shape.name(), &own.shape.kwargs(py)?);
        };
        let length = |mm: f64| Some(Kind::Length.print(mm));
        let kwargs = given!(py, "thickness" = length(thickness), "width" = length(width));
        Recipe::of_method(&Bound::new(py, own.bare()?)?, "with_skin", &kwargs)
    }
}

/// What is left of a section in bending about x; `Section.effective` makes it. Cannot be changed.
#[pyclass(frozen, eq, module = "raisedbody")]
#[derive(PartialEq)]
pub(super) struct EffectiveSection {
    section: Section,
    bending: core::Bending,
    core: core::Effective,
}

#[pymethods]
impl EffectiveSection {
    /// The section before anything is left out.
    #[getter]
    fn section(&self) -> Section {
        self.section.clone()
    }

    /// Whose effective widths.
    #[getter]
    fn method(&self) -> &str {
        self.bending.rule.name()
    }

    /// The side that is compressed: ``"away"`` from the skin or ``"skin"``.
    #[getter]
    fn compressed(&self) -> &str {
        self.bending.compressed.name()
    }

    /// Greatest compressive stress, MPa.
    #[getter]
    fn stress_mpa(&self) -> f64 {
        self.bending.stress_mpa
    }

    /// Yield strength, MPa.
    #[getter]
    fn fy_mpa(&self) -> f64 {
        self.bending.fy_mpa
    }

    /// Effective area, mm2.
    #[getter]
    fn area_mm2(&self) -> f64 {
        self.core.area_mm2
    }

    /// Height of the neutral axis above the outer face on the skin's side, mm.
    #[getter]
    fn centroid_mm(&self) -> f64 {
        self.core.centroid_mm
    }

    /// How far the neutral axis moved away from the compressed side, mm.
    #[getter]
    fn shift_mm(&self) -> f64 {
        self.core.shift_mm
    }

    /// Effective second moment about x, mm4.
    #[getter]
    fn ix_mm4(&self) -> f64 {
        self.core.ix_mm4
    }

    /// The smaller of both effective moduli, mm3.
    #[getter]
    fn sx_mm3(&self) -> f64 {
        self.core.sx_mm3()
    }

    /// Effective modulus at the compressed face, mm3.
    #[getter]
    fn sx_compressed_mm3(&self) -> f64 {
        self.core.sx_compressed_mm3
    }

    /// Effective modulus at the face in tension, mm3.
    #[getter]
    fn sx_tension_mm3(&self) -> f64 {
        self.core.sx_tension_mm3
    }

    /// Every wall with compression on it, a row each: how it is held, its width, stresses, slenderness lambda, the part rho
    /// that works, what is left out, and beside them lambda and rho by the other method under the same stresses.
    #[getter]
    fn walls(&self) -> Columns {
        wall_columns(self.core.walls.iter().copied())
    }

    /// The walls of `walls` that do not work in full.
    #[getter]
    fn reduced(&self) -> Columns {
        wall_columns(self.core.reduced().copied())
    }

    /// How its rule is known.
    #[getter]
    fn standing(&self) -> &str {
        self.bending.rule.standing().words()
    }

    /// The values by name, each ending in its unit.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Dict<'py>> {
        let dict = PyDict::new(py);
        dict.set_item("section", self.section.to_dict(py)?)?;
        dict.set_item("method", self.method())?;
        dict.set_item("compressed", self.compressed())?;
        dict.set_item("stress_mpa", self.stress_mpa())?;
        dict.set_item("fy_mpa", self.fy_mpa())?;
        dict.set_item("area_mm2", self.area_mm2())?;
        dict.set_item("centroid_mm", self.centroid_mm())?;
        dict.set_item("shift_mm", self.shift_mm())?;
        dict.set_item("ix_mm4", self.ix_mm4())?;
        dict.set_item("sx_mm3", self.sx_mm3())?;
        dict.set_item("sx_compressed_mm3", self.sx_compressed_mm3())?;
        dict.set_item("sx_tension_mm3", self.sx_tension_mm3())?;
        dict.set_item("standing", self.standing())?;
        dict.set_item("walls", self.walls().rows(py)?)?;
        Ok(Dict(dict))
    }

    fn __repr__(&self) -> String {
        let (sx, gross) = (significant(self.sx_mm3()), significant(self.core.gross.sx_mm3));
        let (count, method, known) = (self.core.reduced().count(), self.method(), self.standing());
        format!("<EffectiveSection sx {sx} of {gross} mm3, {count} walls reduced, by {method}, {known}>")
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Recipe<'py>> {
        let stress = |mpa: f64| Some(Kind::Pressure.print(mpa));
        let kwargs = given!(
            py,
            "stress" = stress(self.stress_mpa()),
            "fy" = stress(self.fy_mpa()),
            "method" = Some(self.method()),
            "compressed" = Some(self.compressed()),
        );
        Recipe::of_method(&Bound::new(py, self.section())?, "effective", &kwargs)
    }
}

fn wall_columns(walls: impl IntoIterator<Item = core::WallWidth>) -> Columns {
    Columns::of(walls)
        .count("wall", |w| w.wall)
        .text("edge", |w| w.plate.edge.name())
        .number("width_mm", |w| w.width_mm)
        .number("thickness_mm", |w| w.thickness_mm)
        .number("stress_mpa", |w| w.stress_mpa)
        .number("psi", |w| w.psi)
        .number("k", |w| w.plate.k)
        .number("lambda", |w| w.plate.lambda)
        .number("rho", |w| w.plate.rho)
        .number("removed_mm", |w| w.removed_mm)
        .text("clause", |w| w.plate.rule.clause(w.plate.edge))
        .text("beside", |w| w.beside.rule.name())
        .number("beside_lambda", |w| w.beside.lambda)
        .number("beside_rho", |w| w.beside.rho)
        .done()
}

/// The effective width of one flat wall, by EN 1993-1-5 and by AISI S100 beside it; both from memory, both for steel.
///
/// Args:
///     width: Flat width of the wall.
///     thickness: Thickness.
///     stress: Greatest compression on it, at one of its edges; at most the yield strength.
///     psi: The stress at the other edge over that: 1 for even compression, −1 for pure bending; −3 at least.
///     edge: How it is held: ``"internal"`` along both edges, ``"outstand, tip"`` along one with the greatest compression
///         at the free edge, ``"outstand, root"`` with it at the held one.
///
/// Returns:
///     A row for each method: its buckling factor ``k``, slenderness ``lambda``, the part ``rho`` that works, of the
///     compressed width by EN 1993-1-5 and of the whole by AISI S100; NaN where the wall is too slender for the rule.
///
/// Raises:
///     InputError: An unknown kind of edge; sizes, a stress or a ratio that no wall has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> widths = rb.effective_width("50 mm", "0.9 mm", "230 MPa")
///     >>> widths["rho"].round(4).tolist()
///     [0.7985, 0.7893]
#[pyfunction]
#[pyo3(signature = (width, thickness, stress, *, psi: "SupportsFloat | SupportsIndex" = 1.0, edge = "internal"))]
pub(super) fn effective_width(
    width: Quantity<'_>,
    thickness: Quantity<'_>,
    stress: Quantity<'_>,
    #[pyo3(from_py_with = real)] psi: f64,
    edge: &str,
) -> PyResult<Columns> {
    let mut given = Arguments::default();
    let width_mm = given.quantity("width", Kind::Length, &width)?;
    let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
    let stress_mpa = given.quantity("stress", Kind::Pressure, &stress)?;
    given.readable()?;
    let mut problems = PlateWidth::validate(width_mm, thickness_mm, stress_mpa, psi).err().unwrap_or_default();
    let edge = edge.parse::<Edge>().map_err(|problem| problems.push(problem)).unwrap_or(Edge::Internal);
    if !problems.is_empty() {
        return Err(given.refused(problems));
    }
    let rows = Rule::ALL.map(|rule| {
        let plate = plate_width(rule, edge, width_mm, thickness_mm, stress_mpa, psi);
        (plate, plate.in_range(width_mm, thickness_mm, psi, "width").err())
    });
    Ok(Columns::of(rows)
        .text("method", |(plate, _)| plate.rule.name())
        .text("clause", |(plate, _)| plate.rule.clause(plate.edge))
        .number("k", |(plate, _)| plate.k)
        .number("lambda", |(plate, _)| plate.lambda)
        .number("rho", |(plate, outside)| outside.is_none().then_some(plate.rho))
        .text("outside", |(_, outside)| outside.as_ref().map(ToString::to_string).unwrap_or_default())
        .text("standing", |(plate, _)| plate.rule.standing().words())
        .done())
}

/// How much skin works with a rib between two like it, by both rules; both from memory.
///
/// Args:
///     thickness: Thickness of the skin.
///     spacing: From one line of rivets to the next rib's.
///     stress: Compressive stress in the skin at the rib.
///     modulus: Modulus of elasticity, such as ``"205 GPa"``; that of carbon steel where left out. EN 1993-1-5 has its own.
///
/// Returns:
///     A row for each rule: the width of the strip, both sides of the rib together, at most the spacing. EN 1993-1-5 has
///     none where the spacing is more than 500 thicknesses.
///
/// Raises:
///     InputError: A thickness, spacing, stress or modulus that no skin has.
///     QuantityError: A quantity without a unit, or with one of another kind.
///
/// Example:
///     >>> import raisedbody as rb
///     >>> rb.skin_strips("0.9 mm", "300 mm", "100 MPa", modulus="205 GPa")["width_mm"].round(1).tolist()
///     [73.9, 77.4]
#[pyfunction]
#[pyo3(signature = (thickness, spacing, stress, *, modulus = None))]
pub(super) fn skin_strips(
    thickness: Quantity<'_>,
    spacing: Quantity<'_>,
    stress: Quantity<'_>,
    modulus: Option<Quantity<'_>>,
) -> PyResult<Columns> {
    let mut given = Arguments::default();
    let thickness_mm = given.quantity("thickness", Kind::Length, &thickness)?;
    let spacing_mm = given.quantity("spacing", Kind::Length, &spacing)?;
    let stress_mpa = given.quantity("stress", Kind::Pressure, &stress)?;
    let modulus_mpa = given.optional("modulus", Kind::Pressure, modulus.as_ref())?;
    given.readable()?;
    let modulus_mpa = match modulus_mpa {
        Some(mpa) => mpa,
        None => Catalogue::standard()?.material("modulus", "carbon steel")?.modulus.mpa(),
    };
    let strips = core::skin_strips(thickness_mm, spacing_mm, stress_mpa, modulus_mpa).map_err(|p| given.refused(p))?;
    Ok(Columns::of(strips)
        .text("rule", |s| s.rule)
        .text("formula", |s| s.formula)
        .number("width_mm", |s| s.width_mm)
        .text("standing", |s| s.standing.words())
        .done())
}
