//! What a raise does to the body: new heights, lengthened posts, headroom, and which windows are skinned over.

use crate::error::Problem;

use super::outline::CrossSection;
use super::survey::{Heights, Side, Survey};

/// How the raised roof meets what stays low.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub enum Ends {
    /// The whole roof goes up; a band closes the gap under each end cap.
    WholeRoof,
    /// Upright panels close the steps.
    Stepped,
    /// Sloped panels close the steps over this run, mm.
    Sloped {
        /// Length over which the slope falls.
        run_mm: f64,
    },
}

/// The raise as decided.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Raise {
    /// How far the roof goes up, mm.
    pub height_mm: f64,
    /// Cut through the posts, height above the ground, mm.
    pub cut_mm: f64,
    /// Index of the rearmost post that is lengthened.
    pub first_post: usize,
    /// Index of the foremost post that is lengthened.
    pub last_post: usize,
    /// How the ends are treated.
    pub ends: Ends,
    /// How far an insert reaches into the post above and below, mm.
    pub overlap_mm: f64,
    /// New floor on the old one, mm.
    pub floor_build_up_mm: f64,
    /// New ceiling under the old one, mm.
    pub ceiling_build_up_mm: f64,
    /// For each window between the lengthened posts and beside them: it stays.
    pub window_kept: Vec<bool>,
}

/// The body after the raise.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct RaisedBody {
    /// Heights after the raise.
    pub heights: Heights,
    /// Clear height inside when floor and ceiling are built up, mm.
    pub headroom_mm: f64,
    /// Length of the piece that lengthens each post, mm.
    pub insert_length_mm: f64,
    /// Stations of the lengthened posts, mm.
    pub lengthened_posts_mm: Vec<f64>,
    /// Windows skinned over on each side.
    pub windows_deleted: usize,
    /// The cross-section where the roof is raised.
    pub section: CrossSection,
}

impl RaisedBody {
    /// Distance from the centre line to a side at a height, mm. By heights and insets the lean goes on as taped; a chain
    /// stands upright where it was cut.
    pub fn half_width_on_mm(&self, survey: &Survey, side: Side, z_mm: f64) -> f64 {
        match survey.leans {
            Some(_) => survey.half_width_on_mm(side, z_mm),
            None => self.section.half(side).half_width_mm(z_mm),
        }
    }
}

impl Raise {
    /// Windows between the lengthened posts, by index from the rear.
    pub fn raised_windows(&self) -> std::ops::Range<usize> {
        self.first_post..self.last_post
    }

    /// Everything about this raise that the survey contradicts.
    pub fn problems(&self, survey: &Survey) -> Vec<Problem> {
        let mut problems = Vec::new();
        let h = &survey.heights;
        let posts = survey.posts_mm.len();
        if self.first_post + 1 >= posts {
            let allowed = format!("a post behind the foremost one: 1 to {}", posts - 1);
            problems.push(Problem::out_of_range("raise.first_post", self.first_post + 1, allowed));
            return problems;
        }
        if self.last_post >= posts || self.first_post >= self.last_post {
            problems.push(Problem::out_of_range(
                "raise.last_post",
                self.last_post + 1,
                format!("a post ahead of raise.first_post, up to {posts}"),
            ));
            return problems;
        }
        if self.ends == Ends::WholeRoof && (self.first_post, self.last_post) != (0, posts - 1) {
            problems.push(Problem::contradiction(
                "raise.ends",
                "whole roof",
                format!(
                    "posts {} to {} are lengthened, of {posts}; lengthen all, or write \"stepped\" or \"sloped\"",
                    self.first_post + 1,
                    self.last_post + 1
                ),
            ));
        }
        if !(h.window_bottom_mm < self.cut_mm && self.cut_mm < h.drip_rail_mm) {
            problems.push(Problem::out_of_range(
                "raise.cut",
                format!("{:.0} mm", self.cut_mm),
                format!(
                    "between the window bottom at {:.0} mm and the drip rail at {:.0} mm",
                    h.window_bottom_mm, h.drip_rail_mm
                ),
            ));
            return problems;
        }
        for (where_, stub_mm) in [("above", h.drip_rail_mm - self.cut_mm), ("below", self.cut_mm - h.window_bottom_mm)]
        {
            if stub_mm < self.overlap_mm {
                problems.push(Problem::contradiction(
                    "raise.overlap",
                    format!("{:.0} mm", self.overlap_mm),
                    format!(
                        "the post {where_} the cut is only {stub_mm:.0} mm long; move the cut or shorten the overlap"
                    ),
                ));
            }
        }
        for window in self.raised_windows().filter(|&w| self.window_kept.get(w) == Some(&true)) {
            if self.cut_mm < h.window_top_mm {
                problems.push(Problem::contradiction(
                    "raise.windows_kept",
                    window + 1,
                    format!(
                        "the cut at {:.0} mm passes through this window, whose top is at {:.0} mm; cut above it or \
                         leave the window out of the list",
                        self.cut_mm, h.window_top_mm
                    ),
                ));
            }
        }
        problems
    }

    /// The part of the body whose roof goes up, mm forward of the rear face: from its rear end to its front end.
    pub fn roof_ends_mm(&self, survey: &Survey) -> (f64, f64) {
        match self.ends {
            Ends::WholeRoof => (0.0, survey.length_mm),
            _ => (survey.posts_mm[self.first_post], survey.posts_mm[self.last_post]),
        }
    }

    /// Middle of the roof that goes up, mm: of its plan, and half-way from the drip rail to the crown.
    pub fn roof_middle_mm(&self, survey: &Survey) -> [f64; 3] {
        let (rear, front) = self.roof_ends_mm(survey);
        [f64::midpoint(rear, front), 0.0, f64::midpoint(survey.heights.drip_rail_mm, survey.heights.crown_mm)]
    }

    /// The body after this raise.
    pub fn apply(&self, survey: &Survey) -> RaisedBody {
        let rise = self.height_mm;
        let h = survey.heights;
        // What lies above the cut rises; a window top below the cut stays.
        let window_top_mm = if self.cut_mm < h.window_top_mm { h.window_top_mm + rise } else { h.window_top_mm };
        let heights = Heights {
            window_top_mm,
            drip_rail_mm: h.drip_rail_mm + rise,
            crown_mm: h.crown_mm + rise,
            overall_mm: h.overall_mm + rise,
            ..h
        };
        let deleted = self.raised_windows().filter(|&w| self.window_kept.get(w) != Some(&true)).count();
        RaisedBody {
            heights,
            headroom_mm: survey.inside_height_mm + rise - self.floor_build_up_mm - self.ceiling_build_up_mm,
            insert_length_mm: rise + 2.0 * self.overlap_mm,
            lengthened_posts_mm: survey.posts_mm[self.first_post..=self.last_post].to_vec(),
            windows_deleted: deleted,
            section: survey.section.raised(self.cut_mm, rise),
        }
    }
}
