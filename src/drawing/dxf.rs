//! Blanks and jigs as DXF for a supplier's laser or punch: real size in millimetres, outline, holes and bend lines on layers.

use dxf::entities::{Circle, Entity, EntityType, Line, LwPolyline, Text};
use dxf::enums::{AcadVersion, DrawingUnits, Units};
use dxf::tables::Layer;
use dxf::{Color, Drawing, LwPolylineVertex, Point};

use crate::error::Problem;
use crate::plan::Flat;

use super::canvas::printable;

/// What is cut through: one closed outline.
pub const OUTLINE_LAYER: &str = "OUTLINE";
/// Holes, cut through.
pub const HOLES_LAYER: &str = "HOLES";
/// Where bends start and end: marked, not cut.
pub const BENDS_LAYER: &str = "BENDS";
/// What the part is and from where it is seen, beneath it: neither cut nor marked.
pub const TEXT_LAYER: &str = "TEXT";
/// Height of that text and its distance from the part, mm.
const TEXT_MM: f64 = 10.0;

/// The first moment, the number of nothing: types of the header that are not named here.
fn blank<T: Default>() -> T {
    T::default()
}

/// A blank or a jig as a DXF file of the version of 2000, the first that tells its units; seen from outside, from its lower left
/// corner.
///
/// # Errors
/// The writer refuses the drawing.
///
/// # Example
/// ```
/// use raisedbody::{drawing::dxf, plan::Plan};
/// let build = Plan::read("examples/workshop_bus.toml").unwrap().evaluate().unwrap();
/// let blank = build.flats().remove(0);
/// assert!(dxf(&blank).unwrap().contains("OUTLINE"));
/// ```
pub fn dxf(flat: &Flat) -> Result<String, Problem> {
    let mut drawing = Drawing::new();
    let header = &mut drawing.header;
    header.version = AcadVersion::R2000;
    header.default_drawing_units = Units::Millimeters;
    header.drawing_units = DrawingUnits::Metric;
    let [length, height] = flat.size_mm();
    header.minimum_drawing_extents = Point::origin();
    header.maximum_drawing_extents = Point::new(length, height, 0.0);
    // The same part gives the same file, whenever it is written.
    header.creation_date = blank();
    header.update_date = blank();
    header.creation_date_universal = blank();
    header.update_date_universal = blank();
    header.fingerprint_guid = blank();
    header.version_guid = blank();
    // Colours of the format's own list: black or white, red, blue, grey.
    for (name, colour) in [(OUTLINE_LAYER, 7), (HOLES_LAYER, 1), (BENDS_LAYER, 5), (TEXT_LAYER, 8)] {
        drawing.add_layer(Layer { name: name.to_owned(), color: Color::from_index(colour), ..Default::default() });
    }
    let mut add = |layer: &str, specific: EntityType| {
        let mut entity = Entity::new(specific);
        layer.clone_into(&mut entity.common.layer);
        drawing.add_entity(entity);
    };
    let mut ring = LwPolyline::default();
    ring.set_is_closed(true);
    ring.vertices =
        flat.outline_mm.iter().map(|[x, y]| LwPolylineVertex { x: *x, y: *y, ..Default::default() }).collect();
    add(OUTLINE_LAYER, EntityType::LwPolyline(ring));
    for hole in &flat.holes {
        let middle = Point::new(hole.at_mm[0], hole.at_mm[1], 0.0);
        add(HOLES_LAYER, EntityType::Circle(Circle::new(middle, 0.5 * hole.diameter_mm)));
    }
    for bend in &flat.bends {
        let [from, to] = [bend.from_mm, bend.to_mm].map(|[x, y]| Point::new(x, y, 0.0));
        add(BENDS_LAYER, EntityType::Line(Line::new(from, to)));
    }
    let front = match flat.front_to_right {
        Some(true) => ", front to the right",
        Some(false) => ", front to the left",
        None => "",
    };
    let text = Text {
        location: Point::new(0.0, -2.0 * TEXT_MM, 0.0),
        text_height: TEXT_MM,
        value: printable(&format!("{}, seen from outside{front}", flat.id)),
        ..Text::default()
    };
    add(TEXT_LAYER, EntityType::Text(text));
    let mut bytes = Vec::new();
    let told = |why: String| Problem::contradiction("dxf", &flat.id, format!("the file cannot be written: {why}"));
    drawing.save(&mut bytes).map_err(|e| told(e.to_string()))?;
    String::from_utf8(bytes).map_err(|e| told(e.to_string()))
}
