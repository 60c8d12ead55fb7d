//! The bus as a body with posts, skins and masses; knows nothing of files, prices or pictures.

pub mod backers;
pub mod bows;
pub mod cuts;
pub mod features;
pub mod flatness;
pub mod ledger;
pub mod lift;
pub mod limits;
pub mod masses;
pub mod measures;
pub mod outline;
pub mod panels;
pub mod raise;
pub mod rivet_lines;
pub mod road_load;
pub mod skin_loads;
pub mod skins;
pub mod splices;
pub mod squareness;
pub mod stability;
pub mod stacks;
pub mod survey;
pub mod takeoff;
pub mod weighing;
