//! A plan's measure-up: the form for each stage, its readings as a file, and the fit.

use crate::body::squareness::{Layout, Reading, Readings, Squareness, Stage, Station, Tolerances, corners};
use crate::body::survey::Side;
use crate::check::Standing;
use crate::error::{Error, Placed, Problem};
use crate::files::{check_length, read_text};
use crate::quantity::{Kind, ShopUnits, inches_64};

use super::evaluate::side_names;
use super::resolve::Assumption;
use super::{Plan, write_whole};

/// Shown with every measure-up.
pub const MEASURE_UP_NOTES: [&str; 6] = [
    "Block the chassis so that the body does not move on its springs or tyres between the stages, and do not walk about \
     in it while readings are taken.",
    "Punch the floor marks, and the marks above and below the cut on every post, before the first reading; set the floor \
     marks of a pair of posts level across. They are the datum for all three stages.",
    "Take every reading the same way, with the same tape and to the same edge, before and after. No wind, no sun on one \
     side only.",
    "The measure-up comes before anything is welded and again, tacked, before any support comes out. Read it from beside \
     the bus and from the floor outside the line of the roof: nobody goes under a roof that is not held by cribs and \
     braced in both directions.",
    "Move the roof only with its supports following, a little at each corner in turn, then measure again: one correction \
     disturbs another.",
    "\"Go\" says that the roof is square within the planner's tolerance as measured. It says nothing of supports, braces, \
     wind or strength.",
];

/// The measure-up of a plan at one stage.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasureUp {
    /// The plan's name.
    pub name: String,
    /// The plan's figures are invented.
    pub invented: bool,
    /// How lengths are printed.
    pub units: ShopUnits,
    /// Names of the left and the right side.
    pub side_names: [&'static str; 2],
    /// When it is taken.
    pub stage: Stage,
    /// What is measured where.
    pub layout: Layout,
    /// The lines of the form.
    pub readings: Vec<Reading>,
    /// What the roof is judged by.
    pub tolerances: Tolerances,
    /// The weakest standing of a measuring error.
    pub standing: Standing,
    /// Measuring errors that stand in for those the plan does not give.
    pub assumed: Vec<Assumption>,
}

impl Plan {
    /// The measure-up at a stage: its form, and the fit of its readings.
    ///
    /// # Errors
    /// Posts that make no layout.
    pub fn measure_up(&self, stage: Stage) -> Result<MeasureUp, Error> {
        let (file, r) = (self.file(), self.resolved.as_ref());
        let (survey, raise, m) = (&r.survey, &r.raise, &r.measure_up);
        let h = &survey.heights;
        let all: Vec<usize> = (raise.first_post..=raise.last_post).collect();
        let posts = if m.posts.is_empty() { &all } else { &m.posts };
        let stations = posts.iter().filter_map(|&post| {
            let half_mm = |z_mm: f64| Side::BOTH.map(|side| survey.half_width_on_mm(side, z_mm));
            Some(Station {
                post: post + 1,
                x_mm: *survey.posts_mm.get(post)?,
                floor_half_mm: half_mm(h.floor_mm),
                drip_half_mm: half_mm(h.drip_rail_mm),
            })
        });
        let layout = Layout::new(stations.collect(), (h.floor_mm, h.drip_rail_mm), raise.height_mm, m.errors);
        Ok(MeasureUp {
            name: file.name.clone(),
            invented: file.invented,
            units: file.units,
            side_names: side_names(file),
            stage,
            readings: layout.as_ref().map(|layout| layout.readings(stage)).unwrap_or_default(),
            layout: layout.map_err(input)?,
            tolerances: m.tolerances,
            standing: m.standing,
            assumed: m.assumed.clone(),
        })
    }
}

fn input(problems: Vec<Problem>) -> Error {
    Error::Input(problems.into_iter().map(Placed::from).collect())
}

/// Columns of the file.
const COLUMNS: [&str; 8] = ["stage", "name", "what", "from", "to", "expected", "unit", "reading"];

/// One reading as it was written down.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct WrittenReading {
    /// The stage it says it is of; empty where it says none.
    pub stage: String,
    /// Its name.
    pub name: String,
    /// What was read; empty for a blank.
    pub reading: String,
    /// Unit of a reading that has none with it.
    pub unit: String,
    /// Line in the file, from 1.
    pub line: Option<usize>,
}

impl MeasureUp {
    /// Unit that the file's columns are in.
    fn unit(&self) -> &'static str {
        match self.units {
            ShopUnits::Inches => "in",
            ShopUnits::Metric => "mm",
        }
    }

    /// What a reading should be, in [`unit`](Self::unit); empty where the shop chooses the marks.
    fn expected(&self, reading: &Reading) -> String {
        match (reading.expected_mm, self.units) {
            (None, _) => String::new(),
            (Some(mm), ShopUnits::Metric) => format!("{mm:.1}"),
            (Some(mm), ShopUnits::Inches) => inches_64(mm).trim_end_matches(" in").to_owned(),
        }
    }

    /// The form as comma-separated values, with a column `reading` to fill in: a length with its unit, or a number in the
    /// unit of the column beside it.
    ///
    /// # Errors
    /// The text cannot be put together.
    pub fn to_csv(&self) -> Result<String, Error> {
        let unwritable = |problem: String| {
            Error::from(Problem::Unreadable { path: "form".to_owned(), value: String::new(), problem })
        };
        let mut file = csv::Writer::from_writer(Vec::new());
        let mut put = |row: [&str; 8]| file.write_record(row).map_err(|e| unwritable(e.to_string()));
        put(COLUMNS)?;
        for reading in &self.readings {
            let expected = self.expected(reading);
            let (stage, what) = (self.stage.name(), reading.kind.how());
            put([stage, &reading.name, what, &reading.from, &reading.to, &expected, self.unit(), ""])?;
        }
        let bytes = file.into_inner().map_err(|e| unwritable(e.to_string()))?;
        String::from_utf8(bytes).map_err(|e| unwritable(e.to_string()))
    }

    /// Writes a file whole or not at all.
    ///
    /// # Errors
    /// The file exists and `overwrite` is false, or the system refuses.
    pub fn write_csv(&self, path: impl AsRef<std::path::Path>, overwrite: bool) -> Result<(), Error> {
        write_whole(path.as_ref(), self.to_csv()?.as_bytes(), overwrite)
    }

    /// Readings from a filled-in file; blanks are left out.
    ///
    /// # Errors
    /// A file that cannot be read, or everything wrong with its rows at once.
    pub fn read_csv(&self, path: impl AsRef<std::path::Path>) -> Result<Readings, Error> {
        self.parse_csv(&read_text(path.as_ref())?)
    }

    /// As [`read_csv`](Self::read_csv), from the text of a file. Commas, semicolons or tabs part the columns.
    ///
    /// # Errors
    /// Columns that are missing, and everything wrong with the rows at once.
    pub fn parse_csv(&self, text: &str) -> Result<Readings, Error> {
        check_length("readings", text)?;
        let text = text.trim_start_matches('\u{feff}');
        let header = text.lines().next().unwrap_or_default();
        let most = |a: &u8, b: &u8| header.matches(char::from(*a)).count().cmp(&header.matches(char::from(*b)).count());
        let delimiter = [b'\t', b';', b','].into_iter().max_by(most).unwrap_or(b',');
        let mut file = csv::ReaderBuilder::new().delimiter(delimiter).flexible(true).from_reader(text.as_bytes());
        let broken = |e: &csv::Error| {
            let problem = format!("this is no table of comma-separated values: {e}");
            let problem = Problem::Unreadable { path: "readings".to_owned(), value: String::new(), problem };
            Error::Input(vec![Placed { problem, place: e.position().map(|p| (p.line() as usize, 1)) }])
        };
        let names: Vec<String> =
            file.headers().map_err(|e| broken(&e))?.iter().map(|n| n.trim().to_lowercase()).collect();
        let column = |name: &str| names.iter().position(|n| n == name);
        let needed = ["name", "reading"].into_iter().filter(|name| column(name).is_none());
        let missing =
            |name| Problem::missing(format!("column {name}"), "keep the first line of the form as it was written");
        Error::from_problems(needed.map(missing).collect())?;
        let mut rows = Vec::new();
        for record in file.records() {
            let record = record.map_err(|e| broken(&e))?;
            let cell = |name: &str| {
                let text = column(name).and_then(|i| record.get(i)).unwrap_or_default();
                text.trim().to_owned()
            };
            rows.push(WrittenReading {
                stage: cell("stage"),
                name: cell("name"),
                reading: cell("reading"),
                unit: cell("unit"),
                line: record.position().map(|p| p.line() as usize),
            });
        }
        self.readings_of(&rows)
    }

    /// Readings from rows as they were written down; blanks are left out.
    ///
    /// # Errors
    /// Everything wrong with the rows at once: another stage, unknown names, names twice, what is no length.
    pub fn readings_of(&self, rows: &[WrittenReading]) -> Result<Readings, Error> {
        let mut readings = Readings::new();
        let mut problems: Vec<Placed> = Vec::new();
        let filled = rows.iter().filter(|row| !row.reading.is_empty());
        for row in filled {
            let path = format!("readings.{}", row.name);
            let problem = if !(row.stage.is_empty() || row.stage == self.stage.name()) {
                let problem = format!(
                    "these are readings \"{}\", and readings \"{}\" are asked for",
                    row.stage,
                    self.stage.name()
                );
                Some(Problem::contradiction("stage", &row.stage, problem))
            } else if !self.readings.iter().any(|r| r.name == row.name) {
                Some(Problem::unknown_name(path, "reading", &row.name, self.readings.iter().map(|r| r.name.as_str())))
            } else if readings.contains_key(&row.name) {
                Some(Problem::contradiction(path, &row.reading, "this reading is there twice; keep one of them"))
            } else {
                match read_length(&row.reading, &row.unit) {
                    Ok(mm) => {
                        readings.insert(row.name.clone(), mm);
                        None
                    }
                    Err(problem) => Some(Problem::Unreadable { path, value: row.reading.clone(), problem }),
                }
            };
            // A file of another stage is one problem, not a hundred.
            let known = |p: &Problem| p.path() == "stage" && problems.iter().any(|have| have.problem.path() == "stage");
            if let Some(problem) = problem.filter(|p| !known(p)) {
                problems.push(Placed { problem, place: row.line.map(|line| (line, 1)) });
            }
        }
        if problems.is_empty() { Ok(readings) } else { Err(Error::Input(problems)) }
    }

    /// Fits the readings of this stage against those before the cut.
    ///
    /// # Errors
    /// Unknown or impossible readings, and readings that contradict each other beyond their errors.
    pub fn fit(&self, after: &Readings, before: &Readings) -> Result<Squareness, Error> {
        let corners = corners(&self.layout);
        self.layout.fit(self.stage, (after, before), &corners, &self.tolerances, self.standing).map_err(input)
    }

    /// The same measure-up at another stage.
    #[must_use]
    pub fn at(&self, stage: Stage) -> Self {
        Self { stage, readings: self.layout.readings(stage), ..self.clone() }
    }
}

/// A length with its unit, or a number in the unit beside it.
fn read_length(reading: &str, unit: &str) -> Result<f64, String> {
    let bare = !reading.chars().any(|c| c.is_alphabetic() || "\"'″′".contains(c));
    let text = if bare && !unit.is_empty() { format!("{reading} {unit}") } else { reading.to_owned() };
    Kind::Length.parse(&text).map_err(|e| e.to_string())
}
