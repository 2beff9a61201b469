package kinds

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
)

// What of the pieces the numbers below depend on, in mm.
const (
	standardFocal = 50.
	macroFocal    = 100.
	sensorWidth   = 36.
	radius        = 45. // of the lantern, to a corner
	slender       = 20. // across the lens that goes through the hole
)

// apothem is from the lantern's axis to the middle of a pane, mm.
var apothem = radius * math.Cos(math.Pi/6)

// all are the kinds. Each shows the lantern in a way of its own: no two move alike.
var all = []Kind{
	{
		Name: "there-and-back", Line: "in on the product and out again, a face further if it turns", byHand: true,
		asks: func(b Bench) []Question {
			return b.five(b.ends(40, 100, setsOut, turnsRound), near("410 mm"))
		},
		sets: Bench.pushIn,
	},
	{
		Name: "pass", Line: "past the product once; the rig comes back unseen",
		asks: func(b Bench) []Question {
			ends := b.ends(60, 340, "where the carriage begins", "where it ends; run-up and run-out need room beyond both")
			out := b.five(ends, far(mm(clearing(ends))))
			out[1].Default = "8 s"
			return out
		},
		sets: func(b Bench, n numbers) sets {
			return append(b.across(n), exposed(slowLight, standardFocal/(n[distance]-apothem-standardFocal)))
		},
	},
	{
		Name: "out-of-dark", Line: "through a hole in a black board, and back into the dark",
		asks: func(b Bench) []Question {
			out := b.five(b.ends(40, 220, "where the lens waits in the dark", "where it comes nearest to the product"),
				length("hole", "across the hole; the lens goes in as far as the hole lets it", "100 mm", "60 mm", "200 mm"))
			out[1].Default = "12 s"
			return out
		},
		sets: Bench.throughHole,
	},
	{
		Name: "label", Line: "a macro lens along a label or a mark, and back", byHand: true,
		asks: func(b Bench) []Question {
			out := b.five(b.ends(188, 212, setsOut, turnsRound), magnification("1:3", "1:5", "1:1"))
			out[1].Default = "8 s"
			return out
		},
		sets: Bench.closeUp,
	},
	{
		Name: "hand", Line: "a hand drops or pours something, counted to the instant",
		asks: func(b Bench) []Question {
			return b.five(b.ends(60, 90, setsOut, "where it waits for the hand"),
				length("fall", "how far it falls, from the hand to where it is seen", "150 mm", "20 mm", "600 mm", "cue[1].fall"))
		},
		sets: func(b Bench, n numbers) sets { n[distance] = 400; return b.pushIn(n) },
	},
	{
		Name: "display-stand", Line: "in and out before a display stand that turns by itself", needs: standing, stand: true,
		asks: func(b Bench) []Question {
			out := append([]Question{capture(), faces(), loop(playback)}, b.ends(40, 80, setsOut, turnsRound)...)
			out[2].Most = longestTurn
			return out
		},
		suits: Bench.closing,
		sets:  func(b Bench, n numbers) sets { n[distance] = 400; return append(b.pushIn(n), alike(n)...) },
	},
	{
		Name: "turntable", Line: "the product turns evenly, face after face; the camera rests", needs: turnable("turntable"),
		asks: func(b Bench) []Question {
			return b.five([]Question{faces(), whole("onward", "how many of these sides it turns on in a loop", "1", "1", "24")}, far("400 mm"))
		},
		sets: func(b Bench, n numbers) sets {
			turns := exact.New(int64(n["onward"]), int64(n["faces"])).String()
			return append(append(b.resting(n), alike(n)...),
				set{"axis." + b.Table + ".turns", turns}, set{"axis." + b.Table + ".symmetry", number(n["faces"])})
		},
	},
	{
		Name: "time-lapse", Line: "hours or minutes in seconds, while the camera drifts past",
		asks: func(b Bench) []Question {
			return append([]Question{
				duration("interval", "real time from one picture to the next", "2 s", "1 s", "60 s"),
				loop(lapsed).with("10 s", "2 s", "60 s"),
			}, append(b.ends(160, 240, setsOut, turnsRound), far("420 mm"))...)
		},
		sets: func(b Bench, n numbers) sets {
			rate := exact.FromFloat(math.Round(n["interval"] * 1000)).Quo(exact.Int(1000)).Inv()
			return append(b.across(n), set{"clock.capture", rate.String()})
		},
	},
	{
		Name: "stop-motion", Line: "frame by frame: the rig goes on, rests, and a hand takes each",
		asks: func(b Bench) []Question {
			return append([]Question{
				duration("exposure", "real time that each frame is exposed", "0.5 s", "0.2 s", "1 s", "frame-by-frame.exposure"),
				loop(lapsed).with("6 s", "1 s", "20 s"),
			}, append(b.ends(185, 215, setsOut, turnsRound), far("420 mm"))...)
		},
		sets: func(b Bench, n numbers) sets {
			return append(b.across(n), exposed(singleLight/n["exposure"], 0))
		},
	},
	{
		Name: "still-turn", Line: "a still picture in which the product turns once", needs: turnable("still-turn"),
		asks: func(b Bench) []Question {
			out := b.five([]Question{faces(), rest()}, far("400 mm"))
			out[0].Default, out[1].Default = "47.952", "8 s"
			return out
		},
		sets: func(b Bench, n numbers) sets {
			hold := n["loop"] * n["rest"] / 100
			return append(append(b.resting(n), alike(n)...),
				set{"axis." + b.Table + ".advance", exact.New(360, int64(n["faces"])).Decimal(6) + " deg"},
				set{"axis." + b.Table + ".keys[1].hold", fmt.Sprintf("%.2f s", hold)})
		},
	},
}

// Words for the ends of a way.
const (
	setsOut    = "where the carriage sets out"
	turnsRound = "where it turns round"
	distance   = "distance"
)

// longestTurn is the longest loop on a display stand: a slow one takes long to bring the
// same face round in slow motion.
const longestTurn = "300 s"

// five are the questions of a kind that is filmed in slow motion: rate and length of the
// loop, two of its own, and one on what the lens sees.
func (b Bench) five(own []Question, last Question) []Question {
	return append(append([]Question{capture(), loop(playback)}, own...), last)
}

// near and far ask how far away the lens is.
func near(standard string) Question {
	return length(distance, "from the lens to the product's axis, where it comes nearest", standard, "250 mm", "900 mm")
}

func far(standard string) Question {
	return length(distance, "from the lens to the product's axis", standard, "250 mm", "900 mm", "scene.distance")
}

// rest asks for a share of the loop.
func rest() Question {
	return whole("rest", "how much of the loop it stands still, in percent", "50", "0", "80")
}
