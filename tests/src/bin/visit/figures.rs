//! Figures of one or two sites: medians of what was measured in turn, and what they may be.

use proof::told::Told;

/// What a figure may be.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Bound {
    /// Of what was measured the least, since whatever else the machine does only adds to a time.
    Most(f64),
    /// Of marks the median.
    Least(f64),
}

/// A line of the table.
#[derive(Debug)]
pub(crate) struct Figure {
    pub(crate) name: String,
    pub(crate) unit: &'static str,
    /// What was measured, of each site.
    pub(crate) samples: Vec<Vec<f64>>,
    /// What the first site's may be.
    pub(crate) bound: Option<Bound>,
    /// The name and the unit under which it is held to what it was at the last landing.
    kept: Option<(String, &'static str)>,
}

pub(crate) fn median(of: &[f64]) -> f64 {
    let mut sorted = of.to_vec();
    sorted.sort_by(f64::total_cmp);
    let half = sorted.len() / 2;
    match sorted[..] {
        [] => f64::NAN,
        [.., _] if sorted.len() % 2 == 1 => sorted[half],
        _ => f64::midpoint(sorted[half - 1], sorted[half]),
    }
}

impl Figure {
    pub(crate) fn of(name: impl Into<String>, unit: &'static str, samples: Vec<Vec<f64>>) -> Self {
        Self { name: name.into(), unit, samples, bound: None, kept: None }
    }

    pub(crate) fn at_most(self, bound: f64) -> Self {
        Self { bound: Some(Bound::Most(bound)), ..self }
    }

    pub(crate) fn at_least(self, bound: f64) -> Self {
        Self { bound: Some(Bound::Least(bound)), ..self }
    }

    pub(crate) fn kept(self, name: impl Into<String>, unit: &'static str) -> Self {
        Self { kept: Some((name.into(), unit)), ..self }
    }

    /// The first site's.
    fn value(&self) -> f64 {
        median(&self.samples[0])
    }

    /// Whatever else the machine does only adds to a time, so the least counts.
    fn least(&self) -> f64 {
        self.samples[0].iter().copied().fold(f64::INFINITY, f64::min)
    }

    pub(crate) fn met(&self) -> bool {
        self.bound.is_none_or(|bound| match bound {
            Bound::Most(most) => self.least() <= most,
            Bound::Least(least) => self.value() >= least,
        })
    }

    fn written(&self, value: f64) -> String {
        let digits = match self.unit {
            "" => 3,
            "ms" => 1,
            _ => 0,
        };
        format!("{value:.digits$}")
    }

    /// A site's median, and between what it lay where it was measured more than once.
    fn cell(&self, site: usize) -> String {
        let samples = &self.samples[site];
        let space = if self.unit.is_empty() { "" } else { " " };
        let told = format!("{}{space}{}", self.written(median(samples)), self.unit);
        let least = self.written(samples.iter().copied().fold(f64::INFINITY, f64::min));
        let most = self.written(samples.iter().copied().fold(f64::NEG_INFINITY, f64::max));
        if least == most { told } else { format!("{told} ({least} to {most})") }
    }

    fn line(&self) -> String {
        let bound = match self.bound {
            None => String::new(),
            Some(Bound::Most(most)) => self.written(most),
            Some(Bound::Least(least)) => format!("at least {}", self.written(least)),
        };
        let met = match self.bound {
            None => "",
            Some(_) if self.met() => "met",
            Some(_) => "missed",
        };
        let mut line = format!("| {} | {} |", self.name, self.cell(0));
        if let Some(before) = self.samples.get(1) {
            let ratio = self.value() / median(before);
            let ratio = if ratio.is_finite() { format!("{ratio:.3}") } else { "–".to_owned() };
            line.push_str(&format!(" {} | {ratio} |", self.cell(1)));
        }
        format!("{line} {bound} | {met} |")
    }

    /// As it is held to the last landing: `name = figure unit`.
    fn kept_line(&self) -> Option<String> {
        let (name, unit) = self.kept.as_ref()?;
        Some(format!("{name} = {:.3} {unit}", self.least()))
    }
}

/// Tells the table of all figures, and what of them is kept.
pub(crate) fn tell(figures: &[Figure], told: &mut Told) {
    let both = figures.iter().any(|figure| figure.samples.len() > 1);
    let (head, rule) = if both { (" before | now ÷ before |", "--:|--:|") } else { ("", "") };
    told.line(format_args!("| on a phone | now |{head} bound | |"));
    told.line(format_args!("|---|--:|{rule}--:|---|"));
    for figure in figures {
        told.line(figure.line());
    }
}

/// The lines to be held to those of the last landing.
pub(crate) fn kept(figures: &[Figure]) -> String {
    figures.iter().filter_map(Figure::kept_line).map(|line| line + "\n").collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn figure(samples: &[&[f64]]) -> Figure {
        Figure::of("keys", "ms", samples.iter().map(|site| site.to_vec()).collect())
    }

    #[test]
    fn a_median_lies_in_the_middle() {
        assert!((median(&[3.0, 1.0, 2.0]) - 2.0).abs() < 1e-9);
        assert!((median(&[4.0, 1.0]) - 2.5).abs() < 1e-9);
        assert!(median(&[]).is_nan());
    }

    #[test]
    fn a_line_tells_both_sites_and_the_bound() {
        let one = figure(&[&[8.0, 16.0, 24.0]]).at_most(7.0);
        assert_eq!(one.line(), "| keys | 16.0 ms (8.0 to 24.0) | 7.0 | missed |");
        assert!(!one.met());
        assert!(figure(&[&[8.0, 16.0, 24.0]]).at_most(9.0).met());
        let both = figure(&[&[8.0], &[16.0]]).at_most(8.0);
        assert_eq!(both.line(), "| keys | 8.0 ms | 16.0 ms | 0.500 | 8.0 | met |");
        let none = figure(&[&[0.0], &[0.0]]);
        assert_eq!(none.line(), "| keys | 0.0 ms | 0.0 ms | – |  |  |");
    }

    #[test]
    fn marks_are_to_be_high_and_their_median_counts() {
        let marks =
            |samples: &[f64]| Figure::of("marks", "points", vec![samples.to_vec()]).at_least(95.0);
        let line = "| marks | 96 points (90 to 99) | at least 95 | met |";
        assert_eq!(marks(&[96.0, 90.0, 99.0]).line(), line);
        assert!(!marks(&[94.0, 99.0, 90.0]).met());
    }

    #[test]
    fn only_what_is_to_be_kept_is() {
        let figures = [figure(&[&[2.0]]), figure(&[&[1.5, 1.25]]).kept("page: keys", "times")];
        assert_eq!(kept(&figures), "page: keys = 1.250 times\n");
    }
}
