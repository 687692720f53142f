//! The chance of a hand press at the first cut: against the known distributions of sums of equal
//! errors, and against joints that are cut a hundred thousand times with random errors.
//!
//! Known: a sum of n rectangular errors follows the Irwin-Hall distribution (P. Hall, Biometrika 19
//! (1927), 240; its values derived beside each check). Simulated: the parts are drawn from the
//! settings alone, as in `geometry.rs` and `closing.rs`, with each setting, size and cutter off by
//! a random error within its bound; nothing of the program's list of causes is used.

use faceside::joints::{self, Answer, FirstCut, FitBudget, Tolerances};
use faceside::units::{Angle, Length};

use crate::{DOVETAIL_MM, ONE_SIDED_MM, Texts, answer, calculator, length, near};

const BOUNDS: Tolerances = Tolerances {
    measuring: Length::nm(50_000),
    fence: Length::nm(40_000),
    height: Length::nm(60_000),
    diameter: Length::nm(30_000),
    angle: Angle::degrees(0.25),
};

#[track_caller]
fn first_cut(name: &str, texts: Texts, bounds: &Tolerances) -> FirstCut {
    let budget = FitBudget::of(calculator(name), &answer(name, texts), bounds);
    budget
        .expect("a fit")
        .first_cut
        .expect("a planned clearance")
}

fn only(measuring: f64, fence: f64, height: f64, diameter: f64) -> Tolerances {
    let [measuring, fence, height, diameter] = [measuring, fence, height, diameter].map(Length::mm);
    Tolerances {
        measuring,
        fence,
        height,
        diameter,
        angle: Angle::degrees(0.0),
    }
}

fn is(cut: FirstCut, [tight, press, loose]: [f64; 3]) {
    near(cut.tight, tight);
    near(cut.press, press);
    near(cut.loose, loose);
}

// A housing's three errors each count once (see `housing_fit`), and 0.1 mm of clearance is the
// middle of 0.05 to 0.15 mm (joinery 4).
#[test]
fn equal_errors_follow_irwin_and_hall() {
    let housing = [
        ("thickness", "17.6 mm"),
        ("clearance", "0.1 mm"),
        ("cutter", "12 mm"),
    ];
    // One error within 0.1: a quarter of its length lies on either side of the press.
    is(
        first_cut("housing", &housing, &only(0.1, 0.0, 0.0, 0.0)),
        [0.25, 0.5, 0.25],
    );
    // Two within 0.05: a triangle of half width 0.1; each tail beyond 0.05 is (1/2)^2 / 2.
    is(
        first_cut("housing", &housing, &only(0.05, 0.05, 0.0, 0.0)),
        [0.125, 0.75, 0.125],
    );
    // Three within 0.05, half a width from the middle: F(1) of three is 1/6.
    let sixth = 1.0 / 6.0;
    is(
        first_cut("housing", &housing, &only(0.05, 0.05, 0.0, 0.05)),
        [sixth, 1.0 - 2.0 * sixth, sixth],
    );
    // Planned at 0.05, the tight end of the press: as often below as above it.
    let tight = [
        ("thickness", "17.6 mm"),
        ("clearance", "0.05 mm"),
        ("cutter", "12 mm"),
    ];
    is(
        first_cut("housing", &tight, &only(0.05, 0.05, 0.0, 0.05)),
        [0.5, 0.5 - 1.0 / 48.0, 1.0 / 48.0],
    );
    // Errors of nothing: what is planned is what comes.
    is(
        first_cut("housing", &housing, &only(0.0, 0.0, 0.0, 0.0)),
        [0.0, 1.0, 0.0],
    );
    // Both ends of the press are a press.
    let ends = ["0.05 mm", "0.15 mm"].map(|clearance| {
        let texts = [
            ("thickness", "17.6 mm"),
            ("clearance", clearance),
            ("cutter", "12 mm"),
        ];
        first_cut("housing", &texts, &only(0.0, 0.0, 0.0, 0.0))
    });
    is(ends[0], [0.0, 1.0, 0.0]);
    is(ends[1], [0.0, 1.0, 0.0]);
    // Errors too small to leave the press.
    is(
        first_cut("housing", &housing, &only(0.01, 0.01, 0.0, 0.01)),
        [0.0, 1.0, 0.0],
    );
    // Planned far off.
    let loose = [
        ("thickness", "17.6 mm"),
        ("clearance", "0.4 mm"),
        ("cutter", "12 mm"),
    ];
    is(
        first_cut("housing", &loose, &only(0.05, 0.05, 0.0, 0.05)),
        [0.0, 0.0, 1.0],
    );
    is(
        first_cut("housing", &loose, &only(0.0, 0.0, 0.0, 0.0)),
        [0.0, 0.0, 1.0],
    );
}

#[test]
fn a_width_without_a_thickness_tells_no_chance() {
    let texts = [("width", "17.7 mm"), ("cutter", "12 mm")];
    let budget = FitBudget::of(calculator("housing"), &answer("housing", &texts), &BOUNDS);
    assert_eq!(budget.expect("a fit").first_cut, None);
    let passes = answer("passes", calculator("passes").example);
    assert_eq!(FitBudget::of(calculator("passes"), &passes, &BOUNDS), None);
}

/// Random numbers by the recipe of Steele, Lea, Flood, "Fast splittable pseudorandom number
/// generators" (2014), the same each time.
struct Random(u64);

impl Random {
    /// Anywhere from minus to plus `bound`.
    fn within(&mut self, bound: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        bits ^= bits >> 31;
        ((bits >> 11) as f64 / (1_u64 << 52) as f64 - 1.0) * bound
    }

    fn measuring(&mut self) -> f64 {
        self.within(0.05)
    }

    fn fence(&mut self) -> f64 {
        self.within(0.04)
    }

    fn height(&mut self) -> f64 {
        self.within(0.06)
    }

    fn diameter(&mut self) -> f64 {
        self.within(0.03)
    }

    fn degrees(&mut self) -> f64 {
        self.within(0.25)
    }
}

fn tangent(degrees: f64) -> f64 {
    let (sine, cosine) = degrees.to_radians().sin_cos();
    sine / cosine
}

fn mm(answer: &Answer, name: &str) -> f64 {
    length(answer, name).to_mm()
}

/// Narrowest place between socket and tail, at 21 heights of the tail, whose end stands 0.1 mm
/// short of the base as advised.
fn narrowest(tail_height: f64, between: impl Fn(f64) -> f64) -> f64 {
    (0..=20)
        .map(|step| between(tail_height * f64::from(step) / 20.0))
        .fold(f64::INFINITY, f64::min)
}

/// Calculator, its values, and the clearance of one joint cut with random errors.
type Cut = fn(&Answer, &mut Random) -> f64;
const CUTS: &[(&str, Texts, Cut)] = &[
    (
        "housing",
        &[
            ("thickness", "17.6 mm"),
            ("clearance", "0.08 mm"),
            ("cutter", "12 mm"),
            ("from", "100 mm"),
        ],
        |answer, random| {
            let cutter = 12.0 - random.diameter();
            let near = mm(answer, "fence_first") - cutter / 2.0;
            let far = mm(answer, "fence_last") + random.fence() + cutter / 2.0;
            far - near - (17.6 + random.measuring())
        },
    ),
    ("sliding-dovetail", DOVETAIL_MM, |answer, random| {
        let tangent = tangent(14.0 + random.degrees());
        let cutter = 12.7 - random.diameter();
        let socket_depth = 9.5 + random.height();
        let tail_height = 9.4 - random.height();
        let stock = 19.0 + random.measuring();
        let exposure = mm(answer, "exposure") + random.fence();
        narrowest(tail_height, |below_face| {
            let socket = cutter - 2.0 * (socket_depth - below_face) * tangent;
            let tail = stock - 2.0 * (exposure - below_face * tangent);
            socket - tail
        })
    }),
    ("one-sided-dovetail", ONE_SIDED_MM, |answer, random| {
        let tangent = tangent(14.0 + random.degrees());
        let cutter = 12.7 - random.diameter();
        let socket_depth = 9.5 + random.height();
        let tail_height = 9.4 - random.height();
        let stock = 19.0 + random.measuring();
        let exposure = mm(answer, "exposure") + random.fence();
        let square_wall = mm(answer, "fence_straight") - (12.0 - random.diameter()) / 2.0;
        let axis = mm(answer, "fence_dovetail") + random.fence();
        narrowest(tail_height, |below_face| {
            let sloped = axis + cutter / 2.0 - (socket_depth - below_face) * tangent;
            sloped - square_wall - (stock - (exposure - below_face * tangent))
        })
    }),
    (
        "halving",
        &[
            ("stock_a", "19 mm"),
            ("stock_b", "19 mm"),
            ("width", "50 mm"),
            ("angle", "60 deg"),
            ("clearance", "0.1 mm"),
        ],
        |answer, random| {
            let across = (mm(answer, "recess") + random.fence()) * 60_f64.to_radians().sin_cos().0;
            across - (50.0 + random.measuring())
        },
    ),
    (
        "bridle",
        &[
            ("stock", "22 mm"),
            ("width", "60 mm"),
            ("cross", "50 mm"),
            ("clearance", "0.1 mm"),
        ],
        |answer, random| {
            let tongue =
                22.0 + random.measuring() - 2.0 * (mm(answer, "shoulder") + random.height());
            let slot = 22.0 + random.measuring() - 2.0 * (mm(answer, "cheek") + random.fence());
            slot - tongue
        },
    ),
    (
        "tenon",
        &[
            ("stock", "22 mm"),
            ("width", "60 mm"),
            ("cutter", "8 mm"),
            ("length", "32 mm"),
            ("clearance", "0.1 mm"),
        ],
        |answer, random| {
            let both = random.height();
            let tenon = 22.0 + random.measuring()
                - (mm(answer, "shoulder_face") + both)
                - (mm(answer, "shoulder_back") + both);
            8.0 - random.diameter() - tenon
        },
    ),
    (
        "tenon",
        &[
            ("stock", "22 mm"),
            ("width", "60 mm"),
            ("cutter", "8 mm"),
            ("length", "32 mm"),
            ("clearance", "0.1 mm"),
            ("kerf", "3.2 mm"),
            ("method", "one-face"),
        ],
        |answer, random| {
            let near_side = mm(answer, "fence_near") + random.fence() + 3.2 + random.diameter();
            let far_side = mm(answer, "fence_far") + random.fence();
            8.0 - random.diameter() - (far_side - near_side)
        },
    ),
    (
        "tenon",
        &[
            ("stock", "22 mm"),
            ("width", "60 mm"),
            ("cutter", "8 mm"),
            ("length", "32 mm"),
            ("clearance", "0.1 mm"),
            ("kerf", "3.2 mm"),
            ("method", "flipped"),
        ],
        |answer, random| {
            let fence = mm(answer, "fence_flipped") + random.fence();
            let stock = 22.0 + random.measuring();
            8.0 - random.diameter() - (2.0 * fence - stock)
        },
    ),
    (
        "tongue-and-groove",
        &[
            ("stock", "20 mm"),
            ("depth", "8 mm"),
            ("groove", "6 mm"),
            ("clearance", "0.1 mm"),
        ],
        |answer, random| {
            let near_cheek = mm(answer, "shoulder_face") + random.fence() + random.diameter();
            let far_cheek = mm(answer, "tongue_far") + random.fence();
            6.0 - random.diameter() - (far_cheek - near_cheek)
        },
    ),
    (
        "tongue-and-groove",
        &[
            ("stock", "20 mm"),
            ("depth", "8 mm"),
            ("groove", "6 mm"),
            ("clearance", "0.1 mm"),
            ("method", "flipped"),
        ],
        |answer, random| {
            let both = random.height();
            let stock = 20.0 + random.measuring();
            let left = mm(answer, "shoulder_face") + mm(answer, "shoulder_back") + 2.0 * both;
            6.0 - random.diameter() - (stock - left)
        },
    ),
    (
        "tongue-in-housing",
        &[
            ("stock", "18 mm"),
            ("side", "18 mm"),
            ("housing", "6 mm"),
            ("clearance", "0.1 mm"),
        ],
        |answer, random| {
            let tongue = 18.0 + random.measuring() - (mm(answer, "shoulder") + random.height());
            6.0 - random.diameter() - tongue
        },
    ),
    (
        "comb-joint",
        &[
            ("width", "104 mm"),
            ("pin", "8 mm"),
            ("stock", "12 mm"),
            ("clearance", "0.09 mm"),
        ],
        |answer, random| {
            let slot = 8.0 - random.diameter();
            let step = mm(answer, "step") + random.fence();
            slot - (step - slot)
        },
    ),
    (
        "splined-mitre",
        &[
            ("sides", "4"),
            ("stock", "19 mm"),
            ("spline", "4 mm"),
            ("centre", "9.5 mm"),
            ("wall", "3 mm"),
            ("clearance", "0.1 mm"),
        ],
        |answer, random| {
            let groove = mm(answer, "groove_width") - random.diameter();
            groove - (4.0 + random.measuring())
        },
    ),
];

#[test]
fn joints_cut_a_hundred_thousand_times_come_out_as_told() {
    const TIMES: u32 = 100_000;
    let mut random = Random(20_261_125);
    for (name, texts, cut) in CUTS {
        let answer = answer(name, texts);
        let budget = FitBudget::of(calculator(name), &answer, &BOUNDS).expect("a fit");
        let told = budget.first_cut.expect("a planned clearance");
        let (least, most) = (budget.press.least.to_mm(), budget.press.most.to_mm());
        let [mut tight, mut loose] = [0_u32; 2];
        let (mut mean, mut squares) = (0.0, 0.0);
        for _ in 0..TIMES {
            let clearance = cut(&answer, &mut random);
            tight += u32::from(clearance < least);
            loose += u32::from(clearance > most);
            mean += clearance / f64::from(TIMES);
            squares += clearance * clearance / f64::from(TIMES);
            assert!(clearance.abs() < 1.0, "{name} {texts:?}: {clearance}");
        }
        // Four standard errors of a share, and the curve of the dovetails' angle.
        let share = |count: u32| f64::from(count) / f64::from(TIMES);
        let met = [share(tight), share(loose)];
        assert!(
            (met[0] - told.tight).abs() < 0.008,
            "{name}: {met:?} {told:?}"
        );
        assert!(
            (met[1] - told.loose).abs() < 0.008,
            "{name}: {met:?} {told:?}"
        );
        near(told.tight + told.press + told.loose, 1.0);
        // A rectangular error within a has the standard deviation a / sqrt 3.
        let deviation = (squares - mean * mean).sqrt();
        let wanted = budget.root_sum_square.to_mm() / 3_f64.sqrt();
        assert!(
            (deviation / wanted - 1.0).abs() < 0.02,
            "{name}: {deviation} {wanted}"
        );
    }
}

#[test]
fn every_fit_is_simulated() {
    for calculator in joints::ALL {
        let is_simulated = CUTS.iter().any(|(name, ..)| *name == calculator.name);
        assert_eq!(
            calculator.fit.is_some(),
            is_simulated,
            "{}",
            calculator.name
        );
    }
}
