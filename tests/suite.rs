//! Every Rust test in one program: a program per file would link the crate sixty times over.
#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::float_cmp)]

mod common;

mod bows;
mod catalogue_coatings;
mod catalogue_drills;
mod catalogue_gauges;
mod catalogue_limits;
mod catalogue_rivets;
mod catalogue_rows;
mod coating_details;
mod corrosion_climate;
mod corrosion_iso_9224;
mod cut_choice;
mod cut_day;
mod cut_list;
mod cutting_bars;
mod cutting_bars_laws;
mod cutting_bars_refused;
mod cutting_sheets;
mod cutting_sheets_checked;
mod cutting_sheets_cp_sat;
mod drawing_svg;
mod drawings;
mod drawings_golden;
mod end_caps;
mod flatness;
mod forming;
mod frame_portals;
mod galvanic;
mod hanging_order;
mod hole_lines;
mod joint_aisi_s100;
mod joint_aisi_s100_bolts;
mod joint_bulk;
mod joint_by_test;
mod joint_by_test_laws;
mod joint_efficiency;
mod joint_en_1993_1_3;
mod joint_en_1999_1_4;
mod joint_groups;
mod joint_handbook;
mod joint_inter_rivet;
mod joint_reference_rows;
mod joint_sheets_and_lines;
mod joint_spacing;
mod joint_tested_lap;
mod joint_turned;
mod joint_welds;
mod layout_details;
mod life_cost;
mod lift_statics;
mod limits;
mod lists_csv;
mod masses_lever_rule;
mod money;
mod names;
mod odds;
mod old_lines;
mod outline_geometry;
mod packet;
mod paint;
mod panel;
mod plan_crew;
mod plan_errors;
mod plan_evaluation;
mod plan_handling;
mod plan_lasting;
mod plan_laws;
mod plan_left_out;
mod plan_lift;
mod plan_never_panics;
mod plan_paint;
mod plan_refuses_nonsense;
mod plan_schema;
mod plan_text;
mod quantity;
mod quote;
mod quote_batch;
mod readme;
mod rivet_grip;
mod rivet_lines;
mod road_load;
mod schedule;
mod section_effective;
mod section_line_method;
mod section_profile;
mod sheet;
mod skin_loads;
mod skins_laps;
mod skins_seams;
mod space_frame;
mod splices;
mod squareness;
mod stability;
mod stop;
mod survey_contradictions;
mod sweep;
mod takeoff;
mod text_and_html;
mod weighing;

/// A file that no line above names would compile nowhere and fail nowhere.
#[test]
fn every_file_of_tests_is_a_module_here() {
    let here = include_str!("suite.rs");
    let files = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/tests")).unwrap();
    let names = files.map(|file| file.unwrap().file_name().into_string().unwrap());
    let forgotten: Vec<String> = names
        .filter_map(|name| name.strip_suffix(".rs").map(str::to_owned))
        .filter(|stem| stem != "suite" && !here.contains(&format!("\nmod {stem};")))
        .collect();
    assert!(forgotten.is_empty(), "add to tests/suite.rs: {forgotten:?}");
}
