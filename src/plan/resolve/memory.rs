//! What each part of a plan in numbers comes from, and the parts of the plan that was read last.
//!
//! A part sees only the sections and the other parts named here: whoever reads another section must name it, or it will not
//! compile.

use crate::body::raise::Raise;
use crate::body::skins::{SheetRules, Skins};
use crate::body::survey::Survey;
use crate::body::takeoff::Allowances;
use crate::catalogue::Limit;
use crate::check::Standing;
use crate::mechanics::joint::BlindRivet;
use crate::mechanics::sheet::Sheet;
use crate::plan::file::{
    Cause, Contact, Crew, Cutting, EndCaps, Fastening, File, Flatness, Gate, HoleLine, Item, LedgerItem, Life, Lift,
    MeasureUp, Paint, Quoting, Raise as RaiseEntries, Service, Shop, Skin, SkinLoads, Survey as SurveyEntries, Vehicle,
};
use crate::quantity::Length;
use crate::shared::{Kept, Shared};
use crate::shop::hours::Times;
use crate::shop::odds;
use crate::shop::price_book::PriceBook;
use crate::shop::quote::Prices;

use super::cut_day::CutDay;
use super::hole_line::Drilled;
use super::{
    Air, ContactPlan, CrewPlan, CuttingPlan, EndCapPlan, FlatnessPlan, Framing, Lasting, LiftPlan, Loads,
    MeasureUpNumbers, OnWheels, PaintPlan, Section, Trim, UnitMasses, Walls,
};

/// Some sections of the plan as written.
macro_rules! sections {
    ($($name:ident { $($section:ident: $type:ty),* })*) => {$(
        #[derive(Debug, Clone, PartialEq)]
        pub(super) struct $name {
            $(pub $section: Shared<$type>,)*
        }

        impl From<&File> for $name {
            fn from(file: &File) -> Self {
                Self { $($section: file.$section.clone(),)* }
            }
        }
    )*};
}

sections! {
    OfSurvey { vehicle: Vehicle, survey: SurveyEntries, skin: Skin }
    OfRaise { survey: SurveyEntries, raise: RaiseEntries }
    OfSkin { skin: Skin }
    OfFastening { fastening: Fastening }
    OfOldHoles { hole_line: Vec<HoleLine> }
    OfShell { survey: SurveyEntries, skin: Skin }
    OfRules { survey: SurveyEntries, skin: Skin, fastening: Fastening, crew: Option<Crew> }
    OfFraming { survey: SurveyEntries, raise: RaiseEntries, loads: SkinLoads }
    OfVehicle { vehicle: Vehicle }
    OfAir { vehicle: Vehicle, survey: SurveyEntries, service: Service }
    OfMeasureUp { measure_up: MeasureUp }
    OfRoof { survey: SurveyEntries }
    OfService { service: Service }
    OfContacts { survey: SurveyEntries, skin: Skin, fastening: Fastening, contact: Vec<Contact>, service: Service }
    OfLasting { service: Service, life: Option<Life>, prices: Option<PriceBook> }
    OfLoads { vehicle: Vehicle, raise: RaiseEntries, service: Service, loads: SkinLoads }
    OfFlatness { skin: Skin, flatness: Flatness }
    OfLift { survey: SurveyEntries, lift: Option<Lift> }
    OfPaint { paint: Paint, shop: Shop }
    OfShop { skin: Skin, paint: Paint, shop: Shop }
    OfCutting { shop: Shop, cutting: Option<Cutting>, prices: Option<PriceBook> }
    OfWork { hole_line: Vec<HoleLine>, shop: Shop, crew: Option<Crew> }
    OfPrices { prices: Option<PriceBook> }
    OfQuoting { quote: Quoting, odds: Vec<Cause> }
    OfCutDay { survey: SurveyEntries, ledger: Vec<LedgerItem>, gate: Gate }
    OfItems { vehicle: Vehicle, fit_out: Vec<Item>, removed: Vec<Item> }
    OfEndCaps { end_caps: Option<EndCaps> }
}

/// A part that may not be there.
pub(super) type Perhaps<T> = Option<Shared<T>>;

/// Survey and raise.
pub(super) type Body = Option<(Shared<Survey>, Shared<Raise>)>;

/// Mass of the roof, kg.
pub(super) type RoofMass = (f64, Standing);

/// What the lift comes from; with the density of air, kg/m3.
pub(super) type OfLiftPlan = (OfLift, Body, Option<RoofMass>, f64);

/// What the layout of the sheets comes from.
pub(super) type OfSheets = (OfEndCaps, Body, Perhaps<SheetRules>, Perhaps<Sheet>);

/// What the allowances come from: the paint, and the sections of inserts and backing tube.
pub(super) type OfAllowances = (OfShop, Shared<PaintPlan>, Perhaps<Section>, Perhaps<Section>);

/// What times and crew come from.
pub(super) type OfTimes = (OfWork, Shared<PaintPlan>, Shared<CuttingPlan>);

/// The parts of the plan that was read last, each beside what it came from.
#[derive(Debug, Default)]
pub(in crate::plan) struct Memory {
    pub(super) survey: Kept<OfSurvey, Perhaps<Survey>>,
    pub(super) raise: Kept<OfRaise, Perhaps<Raise>>,
    pub(super) sheet: Kept<OfSkin, Perhaps<Sheet>>,
    pub(super) rivet: Kept<OfFastening, Perhaps<BlindRivet>>,
    /// From the tolerance of a jig and the rivet's hole besides.
    pub(super) drilled: Kept<(OfOldHoles, Option<Length>, Option<f64>), Shared<Drilled>>,
    pub(super) shell: Kept<OfShell, (Walls, Trim)>,
    pub(super) rules: Kept<(OfRules, Perhaps<Survey>, Perhaps<Sheet>), Perhaps<SheetRules>>,
    pub(super) framing: Kept<OfFraming, Framing>,
    pub(super) wheels: Kept<OfVehicle, OnWheels>,
    pub(super) air: Kept<(OfAir, Perhaps<Survey>), (Air, f64)>,
    pub(super) measure_up: Kept<(OfMeasureUp, Perhaps<Raise>), Shared<MeasureUpNumbers>>,
    pub(super) roof: Kept<(OfRoof, Body), Option<RoofMass>>,
    pub(super) places: Kept<OfService, Shared<Vec<Limit>>>,
    /// From the wind across the bus, m/s, besides.
    pub(super) loads: Kept<(OfLoads, f64), Loads>,
    pub(super) flatness: Kept<(OfFlatness, Perhaps<Sheet>), Perhaps<FlatnessPlan>>,
    pub(super) lift: Kept<OfLiftPlan, Perhaps<LiftPlan>>,
    pub(super) contacts: Kept<OfContacts, Shared<ContactPlan>>,
    pub(super) lasting: Kept<OfLasting, Perhaps<Lasting>>,
    pub(super) allowances: Kept<OfAllowances, Shared<Allowances>>,
    pub(super) cutting: Kept<(OfCutting, Shared<PaintPlan>), Shared<CuttingPlan>>,
    pub(super) paint: Kept<(OfPaint, Perhaps<Sheet>), Shared<PaintPlan>>,
    pub(super) masses: Kept<Shared<PaintPlan>, UnitMasses>,
    pub(super) work: Kept<OfTimes, (Times, Perhaps<CrewPlan>)>,
    pub(super) prices: Kept<(OfPrices, Shared<PaintPlan>), Perhaps<Prices>>,
    pub(super) odds: Kept<OfQuoting, Shared<Vec<odds::Cause>>>,
    pub(super) cut_day: Kept<(OfCutDay, Body), Shared<CutDay>>,
    pub(super) items: Kept<OfItems, ()>,
    pub(super) skins: Kept<OfSheets, (Perhaps<Skins>, Perhaps<EndCapPlan>)>,
}
