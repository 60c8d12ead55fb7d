//! A symmetric matrix kept row by row from its first entry to the diagonal, and its Cholesky factor, which needs no more.
//!
//! A bow is a chain: of sixty columns a row holds six. A dense factor would take twenty times as long.

use crate::stop::look;

/// The lower half of a symmetric matrix.
pub(super) struct Skyline {
    /// Column of each row's first entry.
    first: Vec<usize>,
    /// Each row's entries, from that column to the diagonal.
    rows: Vec<Vec<f64>>,
}

impl Skyline {
    /// Of noughts; `first` is the column at which each row begins, at or before its diagonal.
    pub(super) fn zeros(first: Vec<usize>) -> Self {
        let rows = first.iter().enumerate().map(|(row, first)| vec![0.0; row + 1 - first]).collect();
        Self { first, rows }
    }

    /// Adds at a place of the lower half that lies within its row.
    pub(super) fn add(&mut self, row: usize, column: usize, value: f64) {
        self.rows[row][column - self.first[row]] += value;
    }

    /// Its diagonal.
    pub(super) fn diagonal(&self) -> impl Iterator<Item = f64> {
        self.rows.iter().map(|row| row.last().copied().unwrap_or_default())
    }

    /// Its factor L with L Lᵀ = the matrix, in its place; none where that is not positive definite (Cholesky, by rows).
    pub(super) fn cholesky(mut self) -> Option<Self> {
        for i in 0..self.rows.len() {
            look();
            let start = self.first[i];
            let (above, rest) = self.rows.split_at_mut(i);
            let own = &mut rest[0];
            for j in start..i {
                let from = start.max(self.first[j]);
                let other = &above[j];
                let dot = dot(&own[from - start..j - start], &other[from - self.first[j]..j - self.first[j]]);
                own[j - start] = (own[j - start] - dot) / other[j - self.first[j]];
            }
            let (left, last) = own.split_at_mut(i - start);
            let pivot = last[0] - dot(left, left);
            // Not a number is no pivot either.
            if pivot.is_nan() || pivot <= 0.0 {
                return None;
            }
            last[0] = pivot.sqrt();
        }
        Some(self)
    }

    /// Solves L Lᵀ x = b in its place, this being L.
    pub(super) fn solve(&self, b: &mut [f64]) {
        for (i, row) in self.rows.iter().enumerate() {
            let left = row.len() - 1;
            b[i] = (b[i] - dot(&row[..left], &b[self.first[i]..i])) / row[left];
        }
        for (i, row) in self.rows.iter().enumerate().rev() {
            let left = row.len() - 1;
            b[i] /= row[left];
            let own = b[i];
            for (x, l) in b[self.first[i]..i].iter_mut().zip(row) {
                *x -= l * own;
            }
        }
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
