//! The plan file: what a planner writes. Its JSON Schema is generated from these types.

mod contacts;
mod crew;
mod cutting;
mod end_caps;
mod flatness;
mod gate;
mod hole_line;
mod ledger;
mod life;
mod lift;
mod loads;
mod measure_up;
mod paint;
mod quoting;
mod surroundings;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::catalogue::{Exposure, Rows, SectionShape};
use crate::quantity::{
    Angle, Density, Duration, Force, FuelUse, Length, Mass, Pressure, Ratio, RollStiffness, ShopUnits, Speed,
};
use crate::shared::Shared;
use crate::shop::price_book::PriceBook;

pub use contacts::Contact;
pub use crew::{Crew, HoursOfDay};
pub use cutting::{Cutting, FirstCut, RestSize, Saw, Shear, StockBar, StockSheet};
pub use end_caps::{CapCorners, CornerRadii, EndCaps, Rolls};
pub use flatness::{Flatness, Restraint, Warmth};
pub use gate::{Answer, Gate};
pub use hole_line::{HoleLine, LiesOn, LineEdge, OldHole, OldMetal};
pub use ledger::{ExitPlace, LedgerAction, LedgerItem, LedgerKind};
pub use life::{Life, LifeEnd};
pub use lift::{Lift, LiftBrace, LiftSupport, Slope, Spot};
pub use loads::SkinLoads;
pub use measure_up::{MeasureUp, ReadingErrors};
pub use paint::{Coat, Paint, Pretreatment};
pub use quoting::{Cause, Quoting, ShapeOfOdds};
pub use surroundings::{Climate, Surrounding, ZoneSteps};

/// The newest form that is read here.
pub const SCHEMA: i64 = 1;

/// A build plan for a raised bus body. Lengths, masses and loads are text with their unit: `"4 1/4 in"`, `"108 mm"`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct File {
    /// Form of this file: 1.
    #[schemars(range(min = 1), example = 1)]
    pub schema: i64,
    /// What to call this job.
    #[schemars(example = "Workshop bus")]
    pub name: String,
    /// Anything worth keeping with the plan.
    #[serde(default)]
    pub notes: Option<String>,
    /// True where the figures are invented for an example.
    #[serde(default)]
    pub invented: bool,
    /// How lengths are printed.
    #[serde(default)]
    pub units: ShopUnits,
    /// Side the driver sits on; names the sides in output.
    #[serde(default)]
    pub driver_side: Option<Side>,
    /// Size, weights and ratings.
    pub vehicle: Shared<Vehicle>,
    /// The body as taped.
    pub survey: Shared<Survey>,
    /// What is raised and how.
    pub raise: Shared<Raise>,
    /// How square the roof must go up, and how closely it is measured.
    #[serde(default)]
    pub measure_up: Shared<MeasureUp>,
    /// What holds the roof while it is off its posts.
    #[serde(default)]
    pub lift: Shared<Option<Lift>>,
    /// The new sheet.
    pub skin: Shared<Skin>,
    /// Coats on the new sheet and sealant in its laps.
    #[serde(default)]
    pub paint: Shared<Paint>,
    /// The sheets that wrap the corners at both ends of the raised band.
    #[serde(default)]
    pub end_caps: Shared<Option<EndCaps>>,
    /// The rivets.
    pub fastening: Shared<Fastening>,
    /// Lines of old holes that new lines are laid over.
    #[serde(default)]
    pub hole_line: Shared<Vec<HoleLine>>,
    /// Contacts of two metals besides those of rivets, skin, posts and tube: earth lugs, brackets, steps.
    #[serde(default)]
    pub contact: Shared<Vec<Contact>>,
    /// Where and how the vehicle is used.
    #[serde(default)]
    pub service: Shared<Service>,
    /// How long the skin lasts and what a year of it costs.
    #[serde(default)]
    pub life: Shared<Option<Life>>,
    /// What loads the skins.
    #[serde(default)]
    pub loads: Shared<SkinLoads>,
    /// How flat the skins lie in sun and cold.
    #[serde(default)]
    pub flatness: Shared<Flatness>,
    /// What goes in.
    #[serde(default)]
    pub fit_out: Shared<Vec<Item>>,
    /// What comes out, besides deleted windows and the old skin.
    #[serde(default)]
    pub removed: Shared<Vec<Item>>,
    /// What the cut goes through: wires, hoses, ducts, hatches, alarms, lamps.
    #[serde(default)]
    pub ledger: Shared<Vec<LedgerItem>>,
    /// What must be settled before the first cut.
    #[serde(default)]
    pub gate: Shared<Gate>,
    /// Spares and times.
    #[serde(default)]
    pub shop: Shared<Shop>,
    /// What sheets and bars are cut from, and what cuts them.
    #[serde(default)]
    pub cutting: Shared<Option<Cutting>>,
    /// Who does the work and when; without it there is a hanging order but no schedule.
    #[serde(default)]
    pub crew: Shared<Option<Crew>>,
    /// What things cost; a price left out is an open item of the quote.
    #[serde(default)]
    pub prices: Shared<Option<PriceBook>>,
    /// What the letter to the customer says besides the price.
    #[serde(default)]
    pub quote: Shared<Quoting>,
    /// What may turn out otherwise than the quote says, and how far.
    #[serde(default)]
    pub odds: Shared<Vec<Cause>>,
    /// Own rows that add to the catalogue or replace its rows.
    #[serde(default)]
    pub catalogue: Option<OwnRows>,
}

/// Small entries, and parts that plans share. Taken apart in full, so that no part can be forgotten here.
macro_rules! parts {
    ($($small:ident),*; $($part:ident),*) => {
        impl File {
            /// Takes one part over from another plan, held apart from it.
            pub(super) fn take_section(&mut self, section: &str, from: &Self) {
                let Self { $($small,)* $($part),* } = from;
                match section {
                    $(stringify!($small) => self.$small.clone_from($small),)*
                    $(stringify!($part) => self.$part = $part.apart(),)*
                    _ => {}
                }
            }

            /// Takes one part as it is written; whether it is one.
            pub(super) fn fill_section(&mut self, section: &str, part: toml::Value) -> bool {
                match section {
                    $(stringify!($small) => match Deserialize::deserialize(part) {
                        Ok(own) => self.$small = own,
                        Err(_) => return false,
                    },)*
                    $(stringify!($part) => match Deserialize::deserialize(part) {
                        Ok(own) => self.$part = own,
                        Err(_) => return false,
                    },)*
                    _ => return false,
                }
                true
            }

            /// The same plan, held apart from this one.
            pub(super) fn apart(&self) -> Self {
                let Self { $($small,)* $($part),* } = self;
                Self { $($small: $small.clone(),)* $($part: $part.apart()),* }
            }
        }
    };
}

parts! {
    schema, name, notes, invented, units, driver_side, catalogue;
    vehicle, survey, raise, measure_up, lift, skin, paint, end_caps, fastening, hole_line, contact, loads, flatness, service, life, fit_out,
    removed, ledger, gate, shop, cutting, crew, prices, quote, odds
}

/// A side as seen facing forward.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// Left, y positive.
    Left,
    /// Right, y negative.
    Right,
}

/// Size, weights and ratings of the vehicle as it stands, empty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Vehicle {
    /// Rear face to front face of the body.
    pub body_length: Length,
    /// Outside width of the body, without mirrors.
    pub body_width: Length,
    /// Ground to the highest fixed part, fittings included, tyres at running pressure.
    pub overall_height: Length,
    /// Front axle to rear axle, or to the middle of a rear pair.
    #[serde(default)]
    pub wheelbase: Option<Length>,
    /// Rear face of the body to the rear axle.
    #[serde(default)]
    pub rear_overhang: Option<Length>,
    /// Distance between the wheel mid-lines of an axle; between the mid-lines of the pairs for twin tyres.
    #[serde(default)]
    pub track: Option<Length>,
    /// Scale weight on each axle, empty.
    #[serde(default)]
    pub axle_weights: Option<PerAxle>,
    /// Rating of each axle.
    #[serde(default)]
    pub axle_ratings: Option<PerAxle>,
    /// Rating of all tyres of each axle together.
    #[serde(default)]
    pub tyre_ratings: Option<PerAxle>,
    /// Gross vehicle rating.
    #[serde(default)]
    pub gross_rating: Option<Mass>,
    /// Height of the centre of gravity from a tilt or axle-lift weighing; without it a range is assumed.
    #[serde(default)]
    pub cg_height: Option<Length>,
    /// The weighing that the height of the centre of gravity is worked out from, in place of `cg_height`.
    #[serde(default)]
    pub weighing: Option<Weighing>,
    /// Moment that leans the whole vehicle by a radian: springs, anti-roll bars and tyres of all axles together.
    #[serde(default)]
    pub roll_stiffness: Option<RollStiffness>,
    /// Height of the axis the body leans about, at the centre of gravity.
    #[serde(default)]
    pub roll_axis_height: Option<Length>,
    /// Lower edge of the body's sides above the ground: side and frontal areas are counted from here up.
    #[serde(default)]
    pub skirt_height: Option<Length>,
}

/// A weighing of the empty vehicle: one axle lifted, or the whole tilted to one side.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Weighing {
    /// One axle lifted, the other on the scale.
    #[serde(default)]
    pub axle_lift: Option<AxleLift>,
    /// Angle of a tilting platform at which the upper wheels no longer carry: the smaller of both sides.
    #[serde(default)]
    pub tilt_angle: Option<Angle>,
}

/// One axle lifted: springs blocked, brakes off, the other axle on the scale. Level weights are `axle_weights`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AxleLift {
    /// The axle that is lifted.
    pub raised: Axle,
    /// How far its wheel centres rise.
    pub lift: Length,
    /// Load on the axle that stays low, while the other is lifted.
    pub low_axle_load: Mass,
    /// Ground to wheel centre of the axle that stays low, loaded.
    pub wheel_radius: Length,
    /// Ground to wheel centre of the axle that is lifted, standing level, where it differs.
    #[serde(default)]
    pub raised_wheel_radius: Option<Length>,
    /// How far any of the readings may be off.
    #[serde(default)]
    pub scale_error: Option<Mass>,
}

/// An axle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Axle {
    /// Front axle.
    Front,
    /// Rear axle, or the rear pair together.
    Rear,
}

/// A mass on the front and on the rear axle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PerAxle {
    /// Front axle.
    pub front: Mass,
    /// Rear axle, or the rear pair together.
    pub rear: Mass,
}

/// The body as taped. Heights are above the ground; windows and posts count from the rear.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Survey {
    /// Number of windows on a side; posts are one more.
    #[schemars(range(min = 1, max = 30), example = 9)]
    pub windows: u32,
    /// Usual distance from post to post.
    pub post_spacing: Length,
    /// Windows whose posts stand at another distance.
    #[serde(default)]
    pub exceptions: Vec<Exception>,
    /// Rear face of the body to the rearmost post.
    pub first_post: Length,
    /// Foremost post to the front face of the body, where taped: closes the row of posts.
    #[serde(default)]
    pub last_post_to_front: Option<Length>,
    /// How closely the posts were taped.
    #[serde(default)]
    pub tape_error: Option<Length>,
    /// Posts on which the old skin has seams, counted from 1 at the rear.
    #[serde(default)]
    pub seams: Option<Vec<u32>>,
    /// Top of the floor.
    pub floor: Length,
    /// Rub rail below the windows, middle.
    #[serde(default)]
    pub rub_rail: Option<Length>,
    /// Lower edge of the window openings.
    pub window_bottom: Length,
    /// Upper edge of the window openings.
    pub window_top: Length,
    /// Drip rail.
    pub drip_rail: Length,
    /// Roof at its highest, without fittings.
    #[serde(default)]
    pub crown: Option<Length>,
    /// Floor to ceiling inside, as it stands.
    pub inside_height: Length,
    /// How far the sides lean in.
    #[serde(default)]
    pub lean: Option<Lean>,
    /// The posts' section, by name or by size.
    #[serde(default)]
    pub post: Option<SectionChoice>,
    /// Tensile strength of the posts from a coupon or certificate.
    #[serde(default)]
    pub post_fu: Option<Pressure>,
    /// Yield strength of the posts from a coupon or certificate.
    #[serde(default)]
    pub post_fy: Option<Pressure>,
    /// The roof bows' section, by name or by size, where it is not that of the posts.
    #[serde(default)]
    pub bow: Option<SectionChoice>,
    /// Yield strength of the roof bows, where it is not that of the posts.
    #[serde(default)]
    pub bow_fy: Option<Pressure>,
    /// Surface of the posts where the skin lies on them: a metal or plating of the catalogue.
    #[serde(default)]
    #[schemars(example = &"hot-dip zinc")]
    pub post_surface: Option<String>,
    /// Wall of the drip rail and of the rails along the body.
    #[serde(default)]
    pub rail_wall: Option<Length>,
    /// Thickness of the old side sheet.
    #[serde(default)]
    pub old_skin: Option<Length>,
    /// Mass of the roof that is lifted, where weighed or worked out.
    #[serde(default)]
    pub roof_mass: Option<Mass>,
    /// Emergency exits, each with what becomes of it.
    #[serde(default)]
    pub exits: Option<Vec<Exit>>,
    /// Width of the aisle in the middle, at whose edge headroom is told.
    #[serde(default)]
    pub aisle: Option<Length>,
    /// The half cross-section as a chain of lines and arcs, in place of lean and a roof in one arc.
    #[serde(default)]
    pub outline: Option<Outline>,
    /// What was taped otherwise on the left side.
    #[serde(default)]
    pub left: Option<OneSide>,
    /// What was taped otherwise on the right side.
    #[serde(default)]
    pub right: Option<OneSide>,
    /// Rails, windows, doors, end caps and fittings, each with its place.
    #[serde(default)]
    pub features: Vec<Feature>,
}

/// Half of the cross-section, from the lowest edge of the skirt up the side to the crown on the centre line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Outline {
    /// Its lowest point, at or below the floor.
    pub start: Place,
    /// Lines and arcs in order; the last ends at the crown.
    pub pieces: Vec<OutlinePiece>,
}

/// A point of the cross-section.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// From the centre line.
    pub half_width: Length,
    /// Above the ground.
    pub height: Length,
}

/// A straight line to a point, or an arc where it has a radius.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OutlinePiece {
    /// Where it ends.
    pub to: Place,
    /// Where it starts, where that was taped too; otherwise where the piece before ends.
    #[serde(default)]
    pub from: Option<Place>,
    /// Radius of an arc of at most half a circle.
    #[serde(default)]
    pub radius: Option<Length>,
    /// Which way the arc bulges.
    #[serde(default)]
    pub bulge: Option<Bulge>,
}

/// Which way an arc bulges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Bulge {
    /// Out of the body: the centre lies inside.
    Out,
    /// Into the body: the centre lies outside.
    In,
}

/// What was taped otherwise on one side; what is left out is as on the other.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OneSide {
    /// Number of windows on this side.
    #[serde(default)]
    #[schemars(range(min = 1, max = 30), example = 9)]
    pub windows: Option<u32>,
    /// Windows of this side whose posts stand at another distance, in place of those of both sides.
    #[serde(default)]
    pub exceptions: Option<Vec<Exception>>,
    /// Rub rail below the windows, middle.
    #[serde(default)]
    pub rub_rail: Option<Length>,
    /// Lower edge of the window openings.
    #[serde(default)]
    pub window_bottom: Option<Length>,
    /// Upper edge of the window openings.
    #[serde(default)]
    pub window_top: Option<Length>,
    /// Drip rail.
    #[serde(default)]
    pub drip_rail: Option<Length>,
    /// How far this side leans in.
    #[serde(default)]
    pub lean: Option<Lean>,
}

/// Something fixed to the body or let into it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Feature {
    /// What to call it.
    #[schemars(example = "entry door")]
    pub name: String,
    /// What it is.
    pub kind: FeatureKind,
    /// Where it is; both sides where left out.
    #[serde(default)]
    pub side: FeatureSide,
    /// Height of a rail or fitting, middle.
    #[serde(default)]
    pub height: Option<Length>,
    /// Lower edge.
    #[serde(default)]
    pub bottom: Option<Length>,
    /// Upper edge.
    #[serde(default)]
    pub top: Option<Length>,
    /// Rear face of the body to its rear end; a rail runs the whole length where left out.
    #[serde(default)]
    pub rear: Option<Length>,
    /// Rear face of the body to its front end.
    #[serde(default)]
    pub front: Option<Length>,
}

/// What a feature is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum FeatureKind {
    /// A rail below the windows.
    #[serde(rename = "rub rail")]
    RubRail,
    /// The drip rail.
    #[serde(rename = "drip rail")]
    DripRail,
    /// A window.
    #[serde(rename = "window")]
    Window,
    /// A door.
    #[serde(rename = "door")]
    Door,
    /// The cap that closes an end.
    #[serde(rename = "end cap")]
    EndCap,
    /// Anything else.
    #[serde(rename = "fitting")]
    Fitting,
}

/// The side a feature is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FeatureSide {
    /// Left, facing forward.
    Left,
    /// Right.
    Right,
    /// Both alike.
    #[default]
    Both,
}

/// A window whose posts are not at the usual spacing.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Exception {
    /// Window, counted from the rear.
    #[schemars(range(min = 1, max = 30), example = 9)]
    pub window: u32,
    /// Distance between its posts.
    pub spacing: Length,
}

/// Side lean as the tape gives it: so much inset over such a drop.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Lean {
    /// How far the top stands in from the bottom.
    pub inset: Length,
    /// Height over which it does.
    pub drop: Length,
}

/// A framing section by catalogue name, or by shape and size.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SectionChoice {
    /// Name in the catalogue.
    #[serde(default)]
    pub section: Option<String>,
    /// Shape, where measured.
    #[serde(default)]
    pub shape: Option<SectionShape>,
    /// Outside depth, square to the skin.
    #[serde(default)]
    pub depth: Option<Length>,
    /// Outside width of tube, or of a hat's crown.
    #[serde(default)]
    pub width: Option<Length>,
    /// Width of each flange of a hat.
    #[serde(default)]
    pub flange: Option<Length>,
    /// Wall thickness, measured.
    #[serde(default)]
    pub wall: Option<Length>,
}

/// An emergency exit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Exit {
    /// What it is.
    #[schemars(example = "rear door")]
    pub name: String,
    /// Whether it stays an exit; one that is relocated counts as kept.
    pub kept: bool,
    /// Where it is.
    #[serde(default)]
    pub place: Option<ExitPlace>,
    /// Lower edge above the ground, before the raise.
    #[serde(default)]
    pub bottom: Option<Length>,
    /// Upper edge.
    #[serde(default)]
    pub top: Option<Length>,
    /// It is made in the raise and was not there before.
    #[serde(default)]
    pub new: bool,
    /// Height of a fixed step below it.
    #[serde(default)]
    pub step: Option<Length>,
}

/// What is raised and how.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Raise {
    /// How far the roof goes up.
    pub height: Length,
    /// Height of the cut through the posts, above the ground.
    pub cut: Length,
    /// Rearmost post that is lengthened, counted from the rear; the first where left out.
    #[serde(default)]
    #[schemars(range(min = 1, max = 31), example = 1)]
    pub first_post: Option<u32>,
    /// Foremost post that is lengthened; the last where left out.
    #[serde(default)]
    #[schemars(range(min = 1, max = 31), example = 10)]
    pub last_post: Option<u32>,
    /// How the raised roof meets what stays low.
    pub ends: Ends,
    /// Length over which a sloped end falls.
    #[serde(default)]
    pub slope_run: Option<Length>,
    /// The piece that lengthens a post.
    #[serde(default)]
    pub insert: Option<SectionChoice>,
    /// Yield strength of that piece, from its certificate.
    #[serde(default)]
    pub insert_fy: Option<Pressure>,
    /// How far an insert reaches into the post above and below.
    #[serde(default)]
    pub overlap: Option<Length>,
    /// How an insert is joined to the post above and below.
    #[serde(default)]
    pub splice: Option<Splice>,
    /// New floor on the old one.
    #[serde(default)]
    pub floor_build_up: Option<Length>,
    /// New ceiling under the old one.
    #[serde(default)]
    pub ceiling_build_up: Option<Length>,
    /// Height wanted inside when all is done.
    #[serde(default)]
    pub headroom: Option<Length>,
    /// Windows that stay, counted from the rear; every other window between the lengthened posts is skinned over.
    #[serde(default)]
    pub windows_kept: Vec<u32>,
}

/// How an insert is joined to the post above and below; a strength left out leaves the joint not assessed.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Splice {
    /// Where the insert goes.
    #[serde(default)]
    pub fit: Option<SpliceFit>,
    /// What holds it; rivets are those of `fastening`.
    #[serde(default)]
    pub joint: Option<SpliceJoint>,
    /// Welds or rivets in a line up each wall beside, at each end of the insert.
    #[serde(default)]
    #[schemars(range(min = 2, max = 10), example = 3)]
    pub in_line: Option<u32>,
    /// Cut edge of the post, and end of the insert, to the middle of the nearest weld or rivet.
    #[serde(default)]
    pub end: Option<Length>,
    /// Hole of a plug weld.
    #[serde(default)]
    pub hole: Option<Length>,
    /// Tensile strength of the filler metal, from its certificate.
    #[serde(default)]
    pub weld_fu: Option<Pressure>,
    /// Tensile strength of the inserts, from a certificate or coupon.
    #[serde(default)]
    pub insert_fu: Option<Pressure>,
    /// How far depth and width of a post may be off.
    #[serde(default)]
    pub post_tolerance: Option<Length>,
    /// How far depth and width of an insert may be off.
    #[serde(default)]
    pub insert_tolerance: Option<Length>,
    /// Outside radius of a post's corners.
    #[serde(default)]
    pub post_corner: Option<Length>,
    /// Outside radius of an insert's corners.
    #[serde(default)]
    pub insert_corner: Option<Length>,
    /// Posts whose section was measured otherwise.
    #[serde(default)]
    pub other_posts: Vec<OtherPost>,
}

/// Where the insert goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum SpliceFit {
    /// Into the post.
    Inside,
    /// Over the post, as a sleeve.
    Over,
}

/// What holds an insert.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum SpliceJoint {
    /// Holes in the outer part, filled onto the inner one.
    #[serde(rename = "plug welds")]
    PlugWelds,
    /// The rivets of `fastening`.
    #[serde(rename = "rivets")]
    Rivets,
}

/// A post whose section was measured otherwise than `survey.post`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OtherPost {
    /// Post, counted from the rear.
    #[schemars(range(min = 1, max = 31), example = 4)]
    pub post: u32,
    /// Its side; both where left out.
    #[serde(default)]
    pub side: FeatureSide,
    /// Its section.
    pub measured: SectionChoice,
}

/// How the raised roof meets what stays low.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum Ends {
    /// The whole roof with both end caps goes up; the gap below each cap is closed.
    #[serde(rename = "whole roof")]
    WholeRoof,
    /// Part of the roof goes up; upright panels close the steps.
    #[serde(rename = "stepped")]
    Stepped,
    /// Part of the roof goes up; sloped panels close the steps.
    #[serde(rename = "sloped")]
    Sloped,
}

/// The new sheet. Give a gauge or a thickness; a grade, or strengths from a certificate.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Skin {
    /// Gauge number; coating or metal decides the series.
    #[serde(default)]
    #[schemars(range(min = 0, max = 40), example = 18)]
    pub gauge: Option<u32>,
    /// Thickness, coating included.
    #[serde(default)]
    pub thickness: Option<Length>,
    /// Coating designation.
    #[serde(default)]
    #[schemars(example = &"A40")]
    pub coating: Option<String>,
    /// Grade.
    #[serde(default)]
    #[schemars(example = &"SS33")]
    pub grade: Option<String>,
    /// Yield strength from a certificate or coupon.
    #[serde(default)]
    pub fy: Option<Pressure>,
    /// Tensile strength from a certificate or coupon.
    #[serde(default)]
    pub fu: Option<Pressure>,
    /// Largest sheet that can be bought, cut and lifted.
    pub largest_sheet: SheetSize,
    /// Which way the grain (the rolling direction, along the length of stock sheet) lies once the sheet hangs; level where left
    /// out.
    #[serde(default)]
    pub grain: Option<Grain>,
    /// Where the finished face goes, of sheet coated heavier or only on one face, or painted by the mill; alike where left out.
    #[serde(default)]
    pub finished_face: Option<FinishedFace>,
    /// Where the new skin ends below, at deleted windows.
    #[serde(default)]
    pub lower_edge: LowerEdge,
    /// How seams are chosen.
    #[serde(default)]
    pub seams: SeamPolicy,
    /// People at a sheet at most; the crew's where left out.
    #[serde(default)]
    #[schemars(range(min = 1, max = 12), example = 3)]
    pub people: Option<u32>,
    /// What one person may lift at a sheet, in parts of the load constant of 23 kg (51 lb).
    #[serde(default)]
    #[schemars(example = &"0.5")]
    pub lifting_factor: Option<Ratio>,
    /// Laps that are made otherwise than water and wind ask; each is checked.
    #[serde(default)]
    pub laps: Vec<LapChoice>,
    /// Tape or adhesive between posts and skin, where the skin is bonded as well.
    #[serde(default)]
    pub bond: Option<Bond>,
    /// The drip rail over the new skin's upper edge.
    #[serde(default)]
    pub drip_rail: DripRail,
    /// Channel over the upper edge of windows and doors that stay.
    #[serde(default)]
    pub channel: bool,
    /// Surface of the tube behind sheet edges: a metal or plating of the catalogue.
    #[serde(default)]
    #[schemars(example = &"hot-dip zinc")]
    pub backing_surface: Option<String>,
}

/// Which way the grain lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Grain {
    /// Along the bus, and across it at the ends.
    Level,
    /// Up the side.
    Upright,
    /// As the cutter likes: the blank may turn.
    Either,
}

/// Where the finished face goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FinishedFace {
    /// It shows.
    Outside,
    /// It lies on the frame.
    Inside,
    /// Both faces are alike: the blank may be turned over.
    Alike,
}

/// Tape or adhesive between posts and skin.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Bond {
    /// Thickness once pressed down: rivets must grip it too.
    #[schemars(example = &"0.8 mm")]
    pub thickness: Length,
    /// Width.
    #[schemars(example = &"3/4 in")]
    pub width: Length,
}

/// The drip rail over the new skin's upper edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
pub enum DripRail {
    /// The old one goes up with the roof.
    #[default]
    #[serde(rename = "kept")]
    Kept,
    /// A new one is hung.
    #[serde(rename = "new")]
    New,
}

/// How seams are chosen: every one stands on a post.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
pub enum SeamPolicy {
    /// As few as the largest sheet allows.
    #[default]
    #[serde(rename = "fewest seams")]
    Fewest,
    /// Sheets as equal as one more than the fewest can make them.
    #[serde(rename = "equal sheets")]
    Equal,
    /// Where the old skin had them (`survey.seams`).
    #[serde(rename = "factory seams")]
    Factory,
}

/// A lap by the names of its two sheets.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LapChoice {
    /// The sheet outside.
    #[schemars(example = &"L-A1")]
    pub over: String,
    /// The sheet beneath.
    #[schemars(example = &"L-A2")]
    pub under: String,
}

/// A sheet's size as it hangs.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SheetSize {
    /// Along the bus.
    pub length: Length,
    /// Up the side.
    pub height: Length,
}

/// Where the new skin ends below, at deleted windows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
pub enum LowerEdge {
    /// At the lower edge of the window openings.
    #[default]
    #[serde(rename = "window bottom")]
    WindowBottom,
    /// At the rub rail.
    #[serde(rename = "rub rail")]
    RubRail,
}

/// The rivets and how they are set out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Fastening {
    /// Nominal diameter.
    pub diameter: Length,
    /// Product of the catalogue; own values below replace its values.
    #[serde(default)]
    #[schemars(example = "ISO 15976")]
    pub product: Option<String>,
    /// Least shear load of one rivet.
    #[serde(default)]
    pub shear: Option<Force>,
    /// Least tension load of one rivet.
    #[serde(default)]
    pub tension: Option<Force>,
    /// Head diameter.
    #[serde(default)]
    pub head: Option<Length>,
    /// Hole as drilled.
    #[serde(default)]
    pub hole: Option<Length>,
    /// Closed end: no water passes the core.
    #[serde(default)]
    pub sealed: Option<bool>,
    /// Locked mandrel.
    #[serde(default)]
    pub structural: Option<bool>,
    /// Metal of the rivet's body, where the product does not tell it: `"steel"`, `"aluminium alloy"`.
    #[serde(default)]
    #[schemars(example = &"steel")]
    pub body: Option<String>,
    /// Plating of the body, a name of the catalogue: `"zinc plating"`, or `"none"`.
    #[serde(default)]
    #[schemars(example = &"zinc plating")]
    pub plating: Option<String>,
    /// Metal of the mandrel that stays in the body, where the product does not tell it.
    #[serde(default)]
    #[schemars(example = &"steel")]
    pub mandrel: Option<String>,
    /// Where own values come from.
    #[serde(default)]
    pub provenance: Option<String>,
    /// Largest spacing along a line.
    pub pitch: Length,
    /// Rivet line to the sheet's edge.
    #[serde(default)]
    pub edge: Option<Length>,
    /// How far a hole of a drilling jig may be from where it should be in any gap that the jig serves.
    #[serde(default)]
    pub jig_tolerance: Option<Length>,
}

/// Where and how the vehicle is used.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Service {
    /// Places whose limits count, by their short names in the catalogue.
    #[serde(default)]
    pub places: Vec<String>,
    /// Fastest road speed, head wind included.
    #[serde(default)]
    pub speed: Option<Speed>,
    /// Usual road speed, for drag and fuel.
    #[serde(default)]
    pub cruise_speed: Option<Speed>,
    /// Drag coefficient on width times height.
    #[serde(default)]
    pub drag: Option<Ratio>,
    /// Side-force coefficient in a wind square to the side, on the area of the side.
    #[serde(default)]
    pub side_force: Option<Ratio>,
    /// Fuel for the engine's work.
    #[serde(default)]
    pub fuel_use: Option<FuelUse>,
    /// Share of the engine's work that reaches the wheels.
    #[serde(default)]
    pub driveline: Option<Ratio>,
    /// Density of the fuel.
    #[serde(default)]
    pub fuel_density: Option<Density>,
    /// Roads salted in winter.
    #[serde(default)]
    pub salted: Option<bool>,
    /// Corrosivity category by zone, where better known than from `salted`.
    #[serde(default)]
    pub corrosivity: Zones,
    /// Where the year is spent, instead of `salted`.
    #[serde(default)]
    pub surroundings: Vec<Surrounding>,
    /// By how many categories each zone is worse off than a plate in the open.
    #[serde(default)]
    pub zone_steps: ZoneSteps,
    /// Share of its strength that a joint may lose to rust.
    #[serde(default)]
    pub strength_loss: Option<Ratio>,
    /// How contacts of two metals are exposed; harsh, as a road vehicle is, where left out.
    #[serde(default)]
    pub exposure: Option<Exposure>,
    /// Years the coating should last.
    #[serde(default)]
    #[schemars(range(min = 1, max = 100))]
    pub years: Option<u32>,
}

/// Corrosivity categories (ISO 9223) of a vehicle's zones.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Zones {
    /// Roof and upper sides.
    #[serde(default)]
    #[schemars(example = &"C3")]
    pub upper: Option<String>,
    /// Lower half metre of the sides, rear face, drip rails.
    #[serde(default)]
    #[schemars(example = &"C4")]
    pub lower: Option<String>,
    /// Laps and crevices low on the body, under the floor.
    #[serde(default)]
    #[schemars(example = &"C5")]
    pub laps: Option<String>,
}

/// A mass and where its middle is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Item {
    /// What it is.
    #[schemars(example = "bookshelves, left")]
    pub name: String,
    /// Its mass.
    pub mass: Mass,
    /// Forward of the rear face of the body.
    pub x: Length,
    /// Left of the middle; right is negative.
    #[serde(default)]
    pub y: Option<Length>,
    /// Above the ground.
    pub z: Length,
}

/// Spares and times; what is left out is taken from the catalogue's defaults, where there is one.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Shop {
    /// Rivets ordered beyond those counted.
    #[serde(default)]
    pub spares: Option<Ratio>,
    /// Length of bar that inserts and backing tube are bought in.
    #[serde(default)]
    pub bar: Option<Length>,
    /// Lengthening one post: cut, fit, weld, dress.
    #[serde(default)]
    pub post_time: Option<Duration>,
    /// Taking out one window.
    #[serde(default)]
    pub window_time: Option<Duration>,
    /// Scraping and cleaning one post; not counted where left out.
    #[serde(default)]
    pub scrape_time: Option<Duration>,
    /// Straightening one post; not counted where left out.
    #[serde(default)]
    pub straighten_time: Option<Duration>,
    /// Priming one square metre of the new skin's inside; not counted where left out.
    #[serde(default)]
    pub prime_time: Option<Duration>,
    /// Clamping one sheet in place before it is hung, all hands together; part of `sheet_time` where left out.
    #[serde(default)]
    pub clamp_time: Option<Duration>,
    /// Hanging one sheet, all hands together.
    #[serde(default)]
    pub sheet_time: Option<Duration>,
    /// Drilling one hole, and deburring it where `deburr_time` is left out.
    #[serde(default)]
    pub hole_time: Option<Duration>,
    /// Deburring one hole; part of `hole_time` where left out.
    #[serde(default)]
    pub deburr_time: Option<Duration>,
    /// Setting one rivet.
    #[serde(default)]
    pub rivet_time: Option<Duration>,
    /// Plugging one old hole in sheet that stays.
    #[serde(default)]
    pub plug_time: Option<Duration>,
    /// Sealing one metre of lap.
    #[serde(default)]
    pub seal_time: Option<Duration>,
    /// Lifting the roof and making it safe, all hands together.
    #[serde(default)]
    pub lift_time: Option<Duration>,
}

/// Own catalogue rows: files of the catalogue's form, or rows written here.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OwnRows {
    /// Files, relative to the plan.
    #[serde(default)]
    pub files: Vec<String>,
    /// Rows in the plan itself.
    #[serde(default)]
    pub rows: Rows,
}
