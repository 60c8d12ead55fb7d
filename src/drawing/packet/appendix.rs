//! Every check as a hand calculation, for a reviewer.

use maud::{PreEscaped, html};

use crate::calculation::{Form, write_all};
use crate::check::Check;

use super::{Job, Part, Section};

/// The checks, then every joint by every rule set.
pub(super) fn appendix(job: &Job<'_>) -> Part {
    let e = job.e;
    let checks = e.checks.iter().filter(|check| !check.name.starts_with("joint")).map(Check::calculation);
    let of_joints = html! {
        @if e.joints.iter().all(|joint| joint.reports.is_empty()) { p { "No joint could be checked." } }
        @for joint in &e.joints {
            @for report in &joint.reports {
                h4 class="lead" { (joint.subject(e.units)) ", by " (report.method) }
                div class="hand" { (PreEscaped(report.explain_as(Form::Html))) }
            }
        }
    };
    Part {
        title: "Appendix: hand calculations",
        sections: vec![
            Section {
                title: "Checks",
                body: html! { div class="hand" { (PreEscaped(write_all(checks, Form::Html))) } },
            },
            Section { title: "Joints, by every rule set", body: of_joints },
        ],
    }
}
