//! What lies between the probes of several points, with as few circuits as they take.

use super::built::{self, Between, Posts};
use super::points::Point;
use super::setting::Setting;
use super::solved::Solved;
use super::variants::Variant;
use crate::wiring::Plan;

/// The settings in which points are read; points that are alike share one.
pub(super) struct Settings {
    all: Vec<Setting>,
    pub(super) points: Vec<(Point, usize)>,
}

impl Settings {
    pub(super) fn of(plan: &Plan, points: impl Iterator<Item = Point>) -> Self {
        let mut settings = Self { all: Vec::new(), points: Vec::new() };
        for point in points {
            let setting = Setting::of(plan, &point);
            let at = settings.all.iter().position(|one| *one == setting).unwrap_or_else(|| {
                settings.all.push(setting);
                settings.all.len().saturating_sub(1)
            });
            settings.points.push((point, at));
        }
        settings
    }

    /// What lies between the probes of a point by its number; the circuit is kept for the
    /// next one.
    pub(super) fn between(
        &self,
        posts: &Posts<'_>,
        variant: &Variant,
        number: usize,
        solved: &mut Option<(usize, Solved)>,
    ) -> Between {
        let Some((point, at)) = self.points.get(number) else { return Between::OPEN };
        if let Some(between) = built::alone(posts, &variant.built, point) {
            return between;
        }
        match solved {
            Some((known, solved)) if known == at => solved.at(posts, &variant.built, point),
            _ => {
                let Some(setting) = self.all.get(*at) else { return Between::OPEN };
                let fresh = Solved::of(posts, &variant.built, setting);
                let between = fresh.at(posts, &variant.built, point);
                *solved = Some((*at, fresh));
                between
            }
        }
    }
}
