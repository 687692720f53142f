//! Which figure shows a calculation, and which of its values each length of the figure is.
//!
//! A length that is neither given nor worked out is not in the drawing: what the figure cannot do
//! without it, it leaves out or breaks off. Letters and names are those of the calculator's tables,
//! and so are the values as shown.

use super::super::figure::figure;
use super::show::{full, shown};
use crate::diag::Code;
use crate::joints::{Answer, Calculator};
use crate::procedure::Drawing;
use crate::units::{Scale, Value};

/// A figure of a calculator. Where several are its, the first is drawn that has all its lengths.
struct Figured {
    calculator: &'static str,
    /// Drawn only with one of these words for a choice.
    when: Option<(&'static str, &'static [&'static str])>,
    /// A name of `SHAPES`.
    shape: &'static str,
    /// Length of the figure (or `angle`), and what it is: of several the first that there is.
    lengths: &'static [(&'static str, Of)],
}

/// A value of a calculation, by its name.
enum Of {
    In(&'static str),
    Out(&'static str),
}

use Of::{In, Out};

const FIGURED: &[Figured] = &[
    Figured {
        calculator: "housing",
        when: None,
        shape: "housing",
        lengths: &[
            ("stock", In("thickness")),
            ("width", Out("width")),
            ("depth", In("depth")),
        ],
    },
    Figured {
        calculator: "stopped-housing",
        when: None,
        shape: "housing-stop",
        lengths: &[
            ("panel", In("panel")),
            ("stop", In("stop")),
            ("cutter", In("cutter")),
            ("length", Out("length")),
            ("stop_near", Out("stop_near")),
            ("stop_far", Out("stop_far")),
            ("stop_axis", Out("stop_axis")),
            ("notch", Out("notch_width")),
            ("set_back", In("set_back")),
        ],
    },
    Figured {
        calculator: "sliding-dovetail",
        when: None,
        shape: "sliding-dovetail",
        lengths: &[
            ("stock", In("stock")),
            ("mouth", Out("mouth")),
            ("base", In("base")),
            ("base", In("cutter")),
            ("depth", In("depth")),
            ("exposure", Out("exposure")),
            ("end_cut", Out("end_cut")),
            ("angle", In("angle")),
        ],
    },
    Figured {
        calculator: "one-sided-dovetail",
        when: None,
        shape: "one-sided-dovetail",
        lengths: &[
            ("stock", In("stock")),
            ("mouth", Out("mouth")),
            ("base", Out("base")),
            ("depth", In("depth")),
            ("exposure", Out("exposure")),
            ("angle", In("angle")),
        ],
    },
    Figured {
        calculator: "rebate",
        when: None,
        shape: "rebate",
        lengths: &[
            ("board", In("stock")),
            ("mate", In("mate")),
            ("rebate", Out("width")),
            ("depth", Out("depth")),
            ("lip", Out("lip")),
        ],
    },
    Figured {
        calculator: "tongue-and-groove",
        when: None,
        shape: "tongue-and-groove",
        lengths: &[
            ("board", In("stock")),
            ("groove", Out("groove")),
            ("depth", Out("depth")),
            ("wall", Out("wall_face")),
            ("wall_back", Out("wall_back")),
            ("tongue", Out("tongue")),
            ("tongue_length", Out("tongue_length")),
            ("shoulder_face", Out("shoulder_face")),
            ("shoulder_back", Out("shoulder_back")),
        ],
    },
    Figured {
        calculator: "tongue-in-housing",
        when: None,
        shape: "tongue-in-housing",
        lengths: &[
            ("stock", In("stock")),
            ("side", In("side")),
            ("width", Out("housing")),
            ("depth", Out("depth")),
            ("rest", Out("rest")),
            ("wall", Out("from_end")),
            ("tongue", Out("tongue")),
            ("tongue_length", Out("tongue_length")),
            ("shoulder_face", Out("shoulder")),
        ],
    },
    Figured {
        calculator: "halving",
        when: None,
        shape: "halving",
        lengths: &[
            ("stock_a", In("stock_a")),
            ("stock_b", In("stock_b")),
            ("depth_a", Out("depth_a")),
            ("depth_b", Out("depth_b")),
            ("recess_a", Out("recess")),
            ("lap_a", Out("end_lap")),
            ("width_b", In("width")),
            ("angle", In("angle")),
        ],
    },
    Figured {
        calculator: "bridle",
        when: None,
        shape: "bridle",
        lengths: &[
            ("board", In("stock")),
            ("slot", Out("slot")),
            ("cheek", Out("cheek")),
            ("depth", Out("slot_depth")),
            ("tongue", Out("thickness")),
            ("recess", Out("recess")),
            ("shoulder_face", Out("shoulder")),
            ("width_b", In("cross")),
            ("proud", In("trim")),
        ],
    },
    Figured {
        calculator: "tenon",
        when: None,
        shape: "rail-tenon",
        lengths: &[
            ("stock", In("stock")),
            ("tenon", Out("thickness")),
            ("tenon_length", Out("length")),
            ("shoulder_face", Out("shoulder_face")),
            ("shoulder_back", Out("shoulder_back")),
            ("rail_width", In("width")),
            ("tenon_width", Out("width")),
            ("edge_inner", Out("edge_inner")),
            ("edge_outer", Out("edge_outer")),
            ("mortise", Out("mortise")),
            ("mortise_depth", Out("mortise_depth")),
            ("gap", Out("gap")),
            ("haunch_long", Out("haunch")),
            ("depth", In("groove")),
            ("mortised_width", In("stile")),
        ],
    },
    Figured {
        calculator: "comb-joint",
        when: None,
        shape: "comb-joint",
        lengths: &[
            ("board_width", In("width")),
            ("filled", Out("trim_to")),
            ("board", In("stock")),
            ("finger", Out("finger")),
            ("slot", In("pin")),
            ("depth", Out("depth")),
            ("proud", In("proud")),
        ],
    },
    Figured {
        calculator: "dovetails",
        when: None,
        shape: "lapped-dovetail",
        lengths: &[
            ("board_width", In("width")),
            ("tail_board", In("side")),
            ("pin_board", In("thickness")),
            ("tail_length", Out("tail_length")),
            ("pin_line", Out("pin_line")),
            ("tail_wide", Out("tail_wide")),
            ("tail_narrow", Out("tail_narrow")),
            ("socket_wide", Out("socket_wide")),
            ("socket_narrow", Out("socket_narrow")),
            ("half_socket_wide", Out("half_socket_wide")),
            ("half_socket_narrow", Out("half_socket_narrow")),
            ("angle", Out("angle")),
            ("lap", In("lap")),
        ],
    },
    Figured {
        calculator: "dovetails",
        when: None,
        shape: "through-dovetail",
        lengths: &[
            ("board_width", In("width")),
            ("tail_board", In("side")),
            ("pin_board", In("thickness")),
            ("tail_length", Out("tail_length")),
            ("pin_line", Out("pin_line")),
            ("tail_wide", Out("tail_wide")),
            ("tail_narrow", Out("tail_narrow")),
            ("socket_wide", Out("socket_wide")),
            ("socket_narrow", Out("socket_narrow")),
            ("half_socket_wide", Out("half_socket_wide")),
            ("half_socket_narrow", Out("half_socket_narrow")),
            ("angle", Out("angle")),
        ],
    },
    Figured {
        calculator: "mitre",
        when: None,
        shape: "mitre",
        lengths: &[
            ("board", In("stock")),
            ("face", Out("face_length")),
            ("outside", In("length")),
            ("inside", Out("inner_length")),
            ("angle", Out("mitre_angle")),
        ],
    },
    Figured {
        calculator: "splined-mitre",
        when: None,
        shape: "splined-mitre",
        lengths: &[
            ("board", In("stock")),
            ("centre", In("centre")),
            ("groove", Out("groove_width")),
            ("depth", In("groove")),
            ("depth", Out("groove_most")),
            ("spline", In("spline")),
            ("spline_width", Out("spline_width")),
            ("face", Out("face_length")),
            ("angle", Out("mitre_angle")),
        ],
    },
    Figured {
        calculator: "mitre-key",
        when: None,
        shape: "keyed-mitre",
        lengths: &[
            ("board", In("stock")),
            ("key_depth", In("depth")),
            ("key_leg", Out("leg")),
            ("key_base", Out("base")),
            ("key_left", Out("left")),
        ],
    },
    Figured {
        calculator: "dowels",
        when: None,
        shape: "dowel-row",
        lengths: &[
            ("board", In("stock")),
            ("rail_width", In("length")),
            ("mortised_width", In("mate")),
            ("first", In("first")),
            ("pitch", Out("pitch")),
            ("cutter", In("diameter")),
            ("rail_depth", Out("hole_depth")),
            ("mortise_depth", Out("hole_mate")),
            ("dowel", In("dowel")),
        ],
    },
    Figured {
        calculator: "drawer",
        when: Some(("joint", &["lapped-dovetail", "rebate"])),
        shape: "drawer",
        lengths: &[
            ("front_length", Out("front_length")),
            ("front", In("front")),
            ("side_thick", In("side")),
            ("side_length", Out("side_length")),
            ("front_lap", In("lap")),
            ("back", In("back")),
            ("back", In("side")),
            ("back_in", In("back_in")),
            ("inside_width", Out("inside_width")),
            ("inside_depth", Out("inside_depth")),
            ("back_tongue_length", In("back_let")),
            ("side_height", Out("side_height")),
            ("back_height", Out("back_height")),
            ("groove_up", In("groove_up")),
            ("groove_width", In("groove_width")),
            ("groove_width", In("bottom")),
        ],
    },
    Figured {
        calculator: "drawer",
        when: Some(("joint", &["through-dovetail", "comb"])),
        shape: "drawer",
        lengths: &[
            ("front_length", Out("front_length")),
            ("front", In("front")),
            ("side_thick", In("side")),
            ("side_length", Out("side_length")),
            ("back", In("back")),
            ("back", In("side")),
            ("back_in", In("back_in")),
            ("inside_width", Out("inside_width")),
            ("inside_depth", Out("inside_depth")),
            ("back_tongue_length", In("back_let")),
            ("side_height", Out("side_height")),
            ("back_height", Out("back_height")),
            ("groove_up", In("groove_up")),
            ("groove_width", In("groove_width")),
            ("groove_width", In("bottom")),
        ],
    },
    Figured {
        calculator: "drawbore",
        when: None,
        shape: "drawbore",
        lengths: &[
            ("cutter", In("peg")),
            ("offset", Out("offset")),
            ("passage", Out("passage")),
            ("distance", In("distance")),
            ("from_shoulder", Out("hole_from_shoulder")),
        ],
    },
    Figured {
        calculator: "frame-panel",
        when: None,
        shape: "frame-panel",
        lengths: &[
            ("opening", In("opening")),
            ("depth", In("groove")),
            ("panel_width", Out("panel")),
            ("stile", In("stile")),
        ],
    },
    Figured {
        calculator: "breadboard",
        when: None,
        shape: "peg-slot",
        lengths: &[
            ("slot", Out("slot")),
            ("cutter", In("peg")),
            ("slot_in", Out("slot_in")),
            ("slot_out", Out("slot_out")),
        ],
    },
    Figured {
        calculator: "rail-length",
        when: None,
        shape: "frame-rail",
        lengths: &[
            ("overall", In("overall")),
            ("stile", In("stile")),
            ("rail_length", Out("rail_shoulder")),
            ("rail_whole", Out("rail")),
            ("tenon_length", In("tenon")),
            ("profile", In("profile")),
            ("frame_height", In("height")),
            ("horn", In("horn")),
            ("stile_length", Out("stile_length")),
        ],
    },
];

/// Whether a calculator has a figure.
pub(in super::super) fn has_figure(calculator: &Calculator) -> bool {
    of(calculator).next().is_some()
}

fn of(calculator: &Calculator) -> impl Iterator<Item = &'static Figured> {
    let name = calculator.name;
    FIGURED.iter().filter(move |one| one.calculator == name)
}

/// The drawing of a calculation; none where no figure can be drawn of it.
pub fn drawing(calculator: &Calculator, answer: &Answer, scale: Scale) -> Option<Drawing> {
    let is_chosen = |figured: &&Figured| {
        figured.when.is_none_or(|(name, words)| {
            let word = answer.given.choice(name);
            word.is_some_and(|word| words.contains(&word))
        })
    };
    for figured in of(calculator).filter(is_chosen) {
        let drawing = figured.drawing(calculator, answer, scale);
        match figure(&drawing) {
            Ok(_) => return Some(drawing),
            Err(fault) if fault.code == Code::VALUE_MISSING => {}
            Err(_) => return None,
        }
    }
    None
}

impl Figured {
    fn drawing(&self, calculator: &Calculator, answer: &Answer, scale: Scale) -> Drawing {
        let mut drawing = Drawing {
            shape: self.shape.to_owned(),
            lengths: Default::default(),
            angle: None,
            plan: None,
            letters: Default::default(),
        };
        for (length, of) in self.lengths {
            if drawing.letters.contains_key(*length) {
                continue;
            }
            let Some((name, letter, value, text)) = of.find(calculator, answer, scale) else {
                continue;
            };
            match value {
                Value::Length(value) => {
                    drawing.lengths.insert((*length).to_owned(), (*value, text));
                }
                Value::Angle(angle) => drawing.angle = Some((angle.to_degrees(), text)),
                _ => continue,
            }
            let mut words = name.replace('_', " ");
            // An input and a result of one name are two sizes where their letters differ.
            let input = calculator.input(name).map(|input| input.letter);
            let output = calculator.output(name).map(|output| output.letter);
            if input.is_some() && output.is_some() && input != output {
                words += match of {
                    In(_) => ", given",
                    Out(_) => ", worked out",
                };
            }
            let lettered = (letter.to_owned(), words);
            drawing.letters.insert((*length).to_owned(), lettered);
        }
        drawing
    }
}

impl Of {
    /// Name, letter, value and text, as the tables of the page have them.
    fn find<'a>(
        &self,
        calculator: &Calculator,
        answer: &'a Answer,
        scale: Scale,
    ) -> Option<(&'static str, &'static str, &'a Value, String)> {
        match self {
            In(name) => {
                let value = answer.given.get(name)?;
                let letter = calculator.input(name)?.letter;
                Some((name, letter, value, full(value, scale)))
            }
            Out(name) => {
                let value = answer.worked.results.get(name)?;
                let output = calculator.output(name)?;
                Some((name, output.letter, value, shown(output, value, scale)))
            }
        }
    }
}
