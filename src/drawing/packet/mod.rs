//! The job packet: one page of HTML that stands alone, prints on A4 and on Letter, and holds all that a job needs on paper.

mod appendix;
mod parts;
mod records;
mod table;
mod work;

use maud::{Markup, PreEscaped, html};

use crate::plan::{Evaluation, Plan};

use super::lists;
use super::{Drawing, drawings};

use table::{Extra, table};

const STYLE: &str = include_str!("style.css");

/// No script, nothing from outside: the style above and pictures that the page itself holds. Elements are closed as XML wants
/// it, so that any reader of XML reads the page.
const HEAD: &str = "<meta charset=\"utf-8\"/><meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; \
    style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'\"/>\
    <meta name=\"viewport\" content=\"width=device-width\"/>";

/// A section: its title, under which the table of contents lists it, and what it holds.
struct Section {
    title: &'static str,
    body: Markup,
}

/// A main part; each starts a page.
struct Part {
    title: &'static str,
    sections: Vec<Section>,
}

/// What the parts are made from.
struct Job<'a> {
    plan: &'a Plan,
    e: &'a Evaluation,
    drawings: Vec<Drawing>,
}

impl Job<'_> {
    /// A section that is one list.
    fn section(&self, name: &str) -> Section {
        self.section_with(name, Extra::default())
    }

    fn section_with(&self, name: &str, extra: Extra<'_>) -> Section {
        let title = lists::list(self.e, name).map_or("", |list| list.title);
        Section { title, body: self.list(name, extra) }
    }

    /// A list without one of its columns; its clauses, say, stand in the appendix.
    fn without(&self, name: &str, heading: &str) -> Markup {
        let Ok(mut list) = lists::list(self.e, name) else { return html! {} };
        if let Some(column) = list.headings.iter().position(|own| *own == heading) {
            list.headings.remove(column);
            list.rows.iter_mut().for_each(|row| drop(row.remove(column)));
        }
        table(&list.headings, &list.rows, Extra::default())
    }

    /// A list as a table, or what there is to say where it has no rows.
    fn list(&self, name: &str, extra: Extra<'_>) -> Markup {
        html! {
            @if let Ok(list) = lists::list(self.e, name) {
                @if list.rows.is_empty() { p { (list.empty) } } @else { (table(&list.headings, &list.rows, extra)) }
            }
        }
    }
}

/// The anchor of a section.
fn anchor(part: usize, section: usize) -> String {
    format!("s{}-{}", part + 1, section + 1)
}

fn contents(parts: &[Part]) -> Markup {
    html! {
        nav {
            ol {
                @for (i, part) in parts.iter().enumerate() {
                    li {
                        a href={ "#s" (i + 1) } { (part.title) }
                        ul {
                            @for (j, section) in part.sections.iter().enumerate() {
                                li { a href={ "#" (anchor(i, j)) } { (section.title) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The job packet of a plan, from its evaluation.
///
/// # Example
/// ```
/// use raisedbody::drawing::packet;
/// use raisedbody::plan::Plan;
/// let plan = Plan::read("examples/workshop_bus.toml").unwrap();
/// let page = packet(&plan, &plan.evaluate().unwrap());
/// assert!(page.contains("Questions before the first cut") && !page.contains("<script"));
/// ```
pub fn packet(plan: &Plan, e: &Evaluation) -> String {
    let job = Job { plan, e, drawings: drawings(e) };
    let parts = [
        parts::summary(&job),
        parts::cut_day(&job),
        parts::measure_up(&job),
        parts::frame(&job),
        parts::body(&job),
        work::order(&job),
        work::cutting(&job),
        work::skin(&job),
        work::drilling(&job),
        work::hanging(&job),
        work::hours_and_quote(&job),
        records::records(&job),
        appendix::appendix(&job),
    ];
    let title = format!("Job packet: {}", e.name);
    let page = html! {
        html lang="en" {
            head { (PreEscaped(HEAD)) title { (title) } style { (PreEscaped(STYLE)) } }
            body {
                h1 { (title) }
                @if e.invented { p { b { "Figures invented for an example." } } }
                @if let Some(notes) = &plan.file().notes { p { (notes) } }
                (parts::cautions())
                h2 { "Contents" }
                (contents(&parts))
                @for (i, part) in parts.into_iter().enumerate() {
                    section class="part" id={ "s" (i + 1) } {
                        h2 { (i + 1) ". " (part.title) }
                        @for (j, section) in part.sections.into_iter().enumerate() {
                            h3 id=(anchor(i, j)) { (section.title) }
                            (section.body)
                        }
                    }
                }
            }
        }
    };
    let mut text = format!("<!DOCTYPE html>\n{}\n", page.into_string());
    // XML, and so a printed page, has no place for these.
    text.retain(|c| c == '\n' || !(c.is_control() || matches!(c, '\u{FFFE}' | '\u{FFFF}')));
    text
}
