//! Reads numbers as a shop writes them: decimals, fractions, mixed numbers.

/// A cursor over the characters of a quantity.
pub(super) struct Scanner<'a> {
    pub(super) chars: &'a [char],
    pub(super) at: usize,
}

/// A number as a quotient: a fraction of an inch is converted before it is divided, so that 17/64 in is exact.
pub(super) struct Number {
    top: f64,
    bottom: f64,
    /// Written without fraction, decimals or exponent.
    pub(super) whole: bool,
}

impl Number {
    fn plain(value: f64, whole: bool) -> Self {
        Self { top: value, bottom: 1.0, whole }
    }

    /// The number times a quotient.
    pub(super) fn times(&self, worth: f64, over: f64) -> f64 {
        self.top * worth / (self.bottom * over)
    }
}

impl Scanner<'_> {
    pub(super) fn peek(&self) -> Option<char> {
        self.chars.get(self.at).copied()
    }

    pub(super) fn take(&mut self, c: char) -> bool {
        let found = self.peek() == Some(c);
        self.at += usize::from(found);
        found
    }

    pub(super) fn skip_space(&mut self) {
        while self.peek().is_some_and(char::is_whitespace) {
            self.at += 1;
        }
    }

    fn digits(&mut self) -> String {
        let start = self.at;
        while self.peek().is_some_and(|c| c.is_ascii_digit()) {
            self.at += 1;
        }
        self.chars[start..self.at].iter().collect()
    }

    /// A decimal, a fraction or a mixed number.
    pub(super) fn number(&mut self) -> Result<Number, (usize, &'static str)> {
        let start = self.at;
        let whole = self.digits();
        if self.take('/') {
            return self.fraction(0.0, &whole, start);
        }
        if self.take('.') {
            let decimals = self.digits();
            if whole.is_empty() && decimals.is_empty() {
                return Err((start, "no number"));
            }
            let exponent = self.exponent();
            let value = format!("{whole}.{decimals}{exponent}").parse().map_err(|_| (start, "not a number"))?;
            return Ok(Number::plain(value, false));
        }
        if whole.is_empty() {
            return Err((start, "no number"));
        }
        if self.peek() == Some(',') {
            return Err((self.at, "no comma in numbers; the decimal sign is a point"));
        }
        let exponent = self.exponent();
        let value: f64 = format!("{whole}{exponent}").parse().map_err(|_| (start, "not a number"))?;
        if !exponent.is_empty() {
            return Ok(Number::plain(value, false));
        }
        // A mixed number: "4 1/4" or "4-1/4".
        let back = self.at;
        if !self.take('-') {
            self.skip_space();
        }
        let fraction_at = self.at;
        let numerator = self.digits();
        if !numerator.is_empty() && self.take('/') {
            return self.fraction(value, &numerator, fraction_at);
        }
        self.at = back;
        Ok(Number::plain(value, true))
    }

    /// What stands before the fraction bar is read; reads the rest.
    fn fraction(&mut self, whole: f64, numerator: &str, start: usize) -> Result<Number, (usize, &'static str)> {
        let denominator_at = self.at;
        let denominator = self.digits();
        let top: f64 = numerator.parse().map_err(|_| (start, "no number before the fraction bar"))?;
        let bottom: f64 = denominator.parse().map_err(|_| (denominator_at, "no number after the fraction bar"))?;
        if bottom == 0.0 {
            return Err((denominator_at, "a fraction over nought"));
        }
        Ok(Number { top: whole * bottom + top, bottom, whole: false })
    }

    /// `e-3`, or nothing.
    fn exponent(&mut self) -> String {
        let start = self.at;
        if self.take('e') || self.take('E') {
            let _sign = self.take('-') || self.take('+');
            if !self.digits().is_empty() {
                return self.chars[start..self.at].iter().collect();
            }
        }
        self.at = start;
        String::new()
    }
}
