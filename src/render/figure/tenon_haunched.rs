//! Haunched tenon: the sections of a tenon, the rail on its face, and the section along the frame.
//!
//! Needs what a stopped tenon needs, and `groove` (k; drawn at its depth), `depth` (h) of the panel
//! groove, `haunch_long` (j) and `haunch_wide` (o) (`joinery.md` 3.7). The outer edge of the rail is
//! at the top; the groove runs along the inner edges of rail and stile.

use super::View;
use super::measures::Measures;
use super::svg::{Edge, Lean, Picture, finish};
use super::tenon;
use crate::diag::Fault;

struct Joint {
    wide: f64,
    tenon: f64,
    long: f64,
    groove: f64,
    haunch: f64,
    haunch_long: f64,
    stile: f64,
    deep: f64,
}

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let joint = Joint {
        wide: measures.mm("rail_width")?,
        tenon: measures.mm("tenon_width")?,
        long: measures.mm("tenon_length")?,
        groove: measures.mm("depth")?,
        haunch: measures.mm("haunch_wide")?,
        haunch_long: measures.mm("haunch_long")?,
        stile: measures.mm("mortised_width")?,
        deep: measures.mm("mortise_depth")?,
    };
    let kept = joint.haunch + joint.tenon;
    measures.demand(
        kept < joint.wide,
        "haunch and tenon are wider than the rail",
    )?;
    measures.demand(
        joint.haunch_long <= joint.groove,
        "the haunch is longer than the groove is deep",
    )?;
    measures.demand(
        joint.groove < joint.long,
        "the groove is deeper than the tenon",
    )?;
    let mut views = tenon::sections(measures, false)?;
    let (face, says) = joint.on_face(measures);
    let (along, along_says) = joint.along(measures);
    views.extend(finish(vec![
        (face, "Rail, on its face", says),
        (along, "Together, section along the frame", along_says),
    ]));
    Ok(views)
}

impl Joint {
    fn beyond(&self) -> f64 {
        self.wide * 0.5
    }

    fn on_face(&self, measures: &Measures<'_>) -> (Picture, String) {
        let (beyond, low) = (self.beyond(), self.haunch + self.tenon);
        let mut picture = Picture::new((-self.long, 0.0), (beyond, self.wide));
        picture.outline(&[
            (beyond, 0.0),
            (-self.haunch_long, 0.0),
            (-self.haunch_long, self.haunch),
            (-self.long, self.haunch),
            (-self.long, low),
            (0.0, low),
            (0.0, self.wide),
            (beyond, self.wide),
        ]);
        picture.outline(&[(0.0, 0.0), (0.0, self.wide)]);
        picture.broken((beyond, 0.0), (beyond, self.wide));
        let bottom = self.wide - self.groove;
        picture.hidden((0.0, bottom), (beyond, bottom));
        let out = [-self.haunch_long, 0.0];
        measures.mark(&mut picture, Edge::Top, [0.0; 2], "haunch_long", out);
        let long = -self.long;
        measures.mark(
            &mut picture,
            Edge::Left,
            [long; 2],
            "tenon_width",
            [self.haunch, low],
        );
        let starts = [-self.haunch_long, long];
        measures.mark(
            &mut picture,
            Edge::Left,
            starts,
            "haunch_wide",
            [0.0, self.haunch],
        );
        let whole = [0.0, self.wide];
        measures.mark(&mut picture, Edge::Right, [beyond; 2], "rail_width", whole);
        let says = format!(
            "The end of the rail on its face, {} wide, outer edge at the top: a haunch {} wide and \
             {} long, below it the tenon, {} wide, then the inner edge with the panel groove.",
            measures.shown("rail_width"),
            measures.shown("haunch_wide"),
            measures.shown("haunch_long"),
            measures.shown("tenon_width")
        );
        (picture, says)
    }

    fn along(&self, measures: &Measures<'_>) -> (Picture, String) {
        let (beyond, low) = (self.beyond(), self.haunch + self.tenon);
        let (above, below) = (-self.wide * 0.25, self.wide * 1.3);
        let mut picture = Picture::new((-self.stile, above), (beyond, below));
        picture.cut(
            &[
                (-self.stile, above),
                (-self.groove, above),
                (-self.groove, self.haunch),
                (-self.deep, self.haunch),
                (-self.deep, low),
                (-self.groove, low),
                (-self.groove, below),
                (-self.stile, below),
            ],
            Lean::Right,
        );
        picture.outline(&[(0.0, above), (0.0, below)]);
        let rail = [
            (beyond, 0.0),
            (-self.haunch_long, 0.0),
            (-self.haunch_long, self.haunch),
            (-self.long, self.haunch),
            (-self.long, low),
            (beyond, self.wide - self.groove),
        ];
        picture.cut(&rail, Lean::Left);
        picture.outline(&[(0.0, self.wide), (beyond, self.wide)]);
        picture.broken((-self.stile, above), (0.0, above));
        picture.broken((-self.stile, below), (0.0, below));
        picture.broken((beyond, 0.0), (beyond, self.wide));
        let groove = [self.wide - self.groove, self.wide];
        measures.mark(&mut picture, Edge::Right, [beyond; 2], "depth", groove);
        let says = format!(
            "Both pieces cut along the middle of their thickness: the tenon in its mortise, the \
             haunch in the panel groove, which is {} deep and runs along the inner edges of both.",
            measures.shown("depth")
        );
        (picture, says)
    }
}
