//! Blank records: the body as built, and what it weighs in the end.

use maud::html;

use crate::check::significant;
use crate::drawing::skins::{SHEET_HEADINGS, sheet_rows};

use super::table::{Extra, table};
use super::{Job, Part, Section};

const READ: Extra<'static> = Extra { tick: false, fill: &["measured", "by", "day"] };

/// Posts as lengthened, each with the length of its insert.
fn post_rows(job: &Job<'_>) -> Vec<[String; 2]> {
    let inserts = job.e.splices.posts.iter().map(|post| &post.insert);
    inserts.map(|insert| [insert.id.clone(), job.e.units.length(insert.length_mm)]).collect()
}

/// What the whole body was planned to measure.
fn body_rows(job: &Job<'_>) -> Vec<[String; 2]> {
    let e = job.e;
    let raise = e.units.length(e.raise.height_mm);
    let corner = |name: &str| [format!("raise at the {name} corner"), raise.clone()];
    let mut rows = vec![
        ["overall height".to_owned(), e.units.length(e.raised.heights.overall_mm)],
        ["headroom".to_owned(), e.units.length(e.raised.headroom_mm)],
    ];
    rows.extend(["rear left", "rear right", "front left", "front right"].map(corner));
    rows
}

/// Weight by axle: before, after by the plan, rating.
fn weight_rows(job: &Job<'_>) -> Vec<[String; 4]> {
    let mass = &job.e.mass;
    let vehicle = &job.plan.file().vehicle;
    let kg = |kg: Option<f64>| kg.map_or_else(|| "–".to_owned(), significant);
    let row = |name: &str, before: Option<f64>, after: Option<f64>, rating: Option<f64>| {
        [name.to_owned(), kg(before), kg(after), kg(rating)]
    };
    let (before, after, ratings) = (mass.axles_before_kg, mass.axles_after_kg, vehicle.axle_ratings.as_ref());
    let left = |mass_kg: f64| mass.left_share_after.map(|share| share * mass_kg);
    let whole_after = mass.after.map(|(low, _)| low.mass_kg);
    vec![
        row("front axle, kg", before.map(|b| b.0), after.map(|a| a.0), ratings.map(|r| r.front.kg())),
        row("rear axle, kg", before.map(|b| b.1), after.map(|a| a.1), ratings.map(|r| r.rear.kg())),
        row("whole, kg", mass.before.map(|(low, _)| low.mass_kg), whole_after, vehicle.gross_rating.map(|r| r.kg())),
        row("left wheels, kg", None, whole_after.and_then(left), None),
    ]
}

/// As built, and weighed again.
pub(super) fn records(job: &Job<'_>) -> Part {
    let body = table(&["of the body", "planned"], &body_rows(job), READ);
    let posts = table(&["post", "insert, planned"], &post_rows(job), READ);
    let sheets: Vec<[String; 2]> = sheet_rows(job.e).into_iter().map(|[sheet, _, size, ..]| [sheet, size]).collect();
    let sheets =
        table(&[SHEET_HEADINGS[0], "planned"], &sheets, Extra { fill: &["as hung", "laps seen", "by", "day"], ..READ });
    let lines = vec![[String::new()]; 8];
    let changes = html! {
        p class="lead" { "What was done otherwise than planned, and who agreed to it:" }
        div class="record" {
            (table(&["where"], &lines, Extra { tick: false, fill: &["what and why", "agreed by", "day"] }))
        }
    };
    let scale = ["which scale, its error", "day, by whom", "fuel and water aboard", "people and tools aboard"];
    let weighed = html! {
        p class="lead" {
            "Before by the plan's scale weights; after as the plan predicts it. Weigh it empty as planned, tanks as before."
        }
        (table(
            &["", "before", "predicted", "rating"],
            &weight_rows(job),
            Extra { tick: false, fill: &["weighed", "less predicted"] },
        ))
        (table(&["scale"], &scale.map(|own| [own.to_owned()]), Extra { tick: false, fill: &["this time"] }))
    };
    Part {
        title: "Records",
        sections: vec![
            Section { title: "The body as built", body },
            Section { title: "Posts as built", body: posts },
            Section { title: "Sheets as built", body: sheets },
            Section { title: "Changes", body: changes },
            Section { title: "Weighed again", body: weighed },
        ],
    }
}
