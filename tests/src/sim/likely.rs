//! How likely a reading is: of one network exactly, of many as a normal distribution or as
//! the mean over them.

use super::meter::{RANGE, Shown};
use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

/// Readings of a vector that are not open.
pub type Vector = Vec<f64>;

/// The chance that ±1 % and ± 1½ counts, each alike within, come to less than `t` together.
fn below(t: f64, share: f64) -> f64 {
    let (a, b) = (share.max(1e-4), 0.15);
    let square = |x: f64| x.max(0.0) * x.max(0.0);
    let sum = square(t + a + b) - square(t + a - b) - square(t - a + b) + square(t - a - b);
    (sum / (8.0 * a * b)).clamp(0.0, 1.0)
}

/// The chance that a meter (`meter::show`) shows this of what is there.
pub fn shown(read: Shown, felt: Option<f64>) -> f64 {
    match (read, felt) {
        (Shown::Open, None) => 1.0,
        (Shown::Ohms(_), None) => 0.0,
        (Shown::Open, Some(felt)) => 1.0 - below(RANGE - felt, 0.01 * felt),
        (Shown::Ohms(read), Some(felt)) => ohms(read, felt),
    }
}

fn ohms(read: f64, felt: f64) -> f64 {
    let share = 0.01 * felt;
    let off = read - felt;
    if off.abs() > 0.2 + share {
        // What reads below 0 shows 0.
        return if read < 0.05 && off > 0.0 { 1.0 } else { 0.0 };
    }
    let low = if read < 0.05 { 0.0 } else { below(off - 0.05, share) };
    // Above the range it is open.
    let high = below((off + 0.05).min(RANGE - felt), share);
    (high - low).max(0.0)
}

/// A normal distribution (nalgebra's Cholesky).
#[derive(Clone, Debug)]
pub struct Normal {
    mean: DVector<f64>,
    root: Cholesky<f64, Dyn>,
    log: f64,
}

impl Normal {
    /// Of a sample; a ridge of the variance of rounding to tenths keeps it from being flat.
    #[allow(clippy::cast_precision_loss, reason = "samples are small")]
    pub fn of(sample: &[&Vector]) -> Option<Self> {
        let size = sample.first()?.len();
        let many = sample.len() as f64;
        let mut mean = DVector::zeros(size);
        for vector in sample {
            mean += DVector::from_column_slice(vector) / many;
        }
        let mut covariance = DMatrix::identity(size, size) * (0.01 / 12.0);
        for vector in sample {
            let off = DVector::from_column_slice(vector) - &mean;
            covariance += &off * off.transpose() / (many - 1.0).max(1.0);
        }
        let root = Cholesky::new(covariance)?;
        let log = -root.l_dirty().diagonal().iter().map(|value| libm::log(*value)).sum::<f64>();
        Some(Self { mean, root, log })
    }

    /// Logarithm of its density, less a constant of the dimension.
    pub fn log(&self, vector: &[f64]) -> f64 {
        self.log_off(vector, None)
    }

    /// The same of the distribution moved by so much.
    fn log_off(&self, vector: &[f64], moved: Option<&Vector>) -> f64 {
        let mut off = DVector::from_column_slice(vector) - &self.mean;
        if let Some(moved) = moved {
            off -= DVector::from_column_slice(moved);
        }
        // Sizes agree, and no root of a regular matrix has a 0 on its diagonal.
        let solved = self.root.l_dirty().solve_lower_triangular(&off);
        self.log - 0.5 * solved.map_or(f64::INFINITY, |solved| solved.norm_squared())
    }

    /// Logarithm of the mean density of the distribution moved by each of these.
    #[allow(clippy::cast_precision_loss, reason = "samples are small")]
    pub fn log_mean(&self, vector: &[f64], moves: &[Vector]) -> f64 {
        let logs: Vec<f64> = moves.iter().map(|moved| self.log_off(vector, Some(moved))).collect();
        let most = logs.iter().copied().fold(f64::MIN, f64::max);
        let sum: f64 = logs.iter().map(|log| libm::exp(log - most)).sum();
        most + libm::log(sum / moves.len().max(1) as f64)
    }
}

/// What is felt of many rigs without a meter's error.
#[derive(Clone, Debug, Default)]
pub struct Cloud(pub Vec<Vector>);

/// Some of the chance goes wide, so that rigs too few to hit every reading do not say never.
const WIDE: f64 = 0.02;

impl Cloud {
    /// Logarithm of the mean chance of the readings over the rigs.
    #[allow(clippy::cast_precision_loss, reason = "samples are small")]
    pub fn log(&self, vector: &[f64]) -> f64 {
        let one = |felt: &Vector| -> f64 {
            let pairs = felt.iter().zip(vector);
            pairs
                .map(|(felt, read)| {
                    let off = (read - felt) / 0.2;
                    let wide = 0.1 / (0.2 * std::f64::consts::PI * (1.0 + off * off));
                    (1.0 - WIDE) * ohms(*read, *felt) + WIDE * wide
                })
                .product()
        };
        libm::log(self.0.iter().map(one).sum::<f64>() / self.0.len().max(1) as f64)
    }
}
