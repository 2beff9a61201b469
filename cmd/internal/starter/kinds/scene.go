package kinds

import (
	"cmp"
	"math"
	"slices"

	"seamrail/motion/base/exact"
)

// slide are the keys that tell how the rail carries the camera.
func (b Bench) slide(heading string, measuredAt float64) sets {
	path := "scene.axis." + b.Rail.Name + "."
	return sets{{path + "heading", heading}, {path + "measured-at", mm(measuredAt)}}
}

// pushIn puts the scene where the lens comes as near as was asked, whichever way the
// carriage goes for that, and the focus between nearest and farthest.
func (b Bench) pushIn(n numbers) sets {
	travel := math.Abs(n["to"] - n["from"])
	heading := "push-in"
	if n["to"] < n["from"] {
		heading = "pull-back"
	}
	nearest, farthest := n[distance]-radius, n[distance]+travel-apothem // a corner comes round between
	return append(b.slide(heading, n["from"]),
		set{"scene.distance", mm(n[distance] + travel)},
		set{"camera.focus", mm(between(nearest, farthest))},
		exposed(slowLight, standardFocal/(nearest-standardFocal)))
}

// between is the distance to focus at so that two others are as sharp as each other: by
// the thin lens their reciprocals count.
func between(near, far float64) float64 { return 2 * near * far / (near + far) }

// across has the lens look at the lantern straight on in the middle of the way.
func (b Bench) across(n numbers) sets {
	face := n[distance] - apothem
	return append(b.slide("right", (n["from"]+n["to"])/2), set{"camera.focus", mm(face)})
}

// clearing is how far away the lens is in a pass between two ends, so that the lantern is
// out of the picture at both: at most as far as on a long rail, and on a short one as
// near as may be. The half angle of view is that of a thin lens in focus on the pane.
func clearing(ends []Question) float64 {
	from, _ := ends[0].read(ends[0].Default)
	to, _ := ends[1].read(ends[1].Default)
	beside := from.Sub(to).Abs().Float()/2 - radius // of the lens, the lantern's nearer corner
	away := passFar
	for ; away > passNear; away -= 10 {
		face := away - apothem
		if beside >= away*sensorWidth/2*(face-standardFocal)/(face*standardFocal) {
			break
		}
	}
	return away
}

// How far away a pass is filmed from, in mm.
const passFar, passNear = 300., 250.

// closeUp is across, from as far away as the magnification asks.
func (b Bench) closeUp(n numbers) sets {
	return append(b.slide("right", (n["from"]+n["to"])/2),
		set{"scene.distance", mm(macroFocal*(1+1/n["magnification"]) + apothem)},
		exposed(macroLight, n["magnification"]))
}

// resting has the camera hold still, where there is an axis that carries it.
func (b Bench) resting(n numbers) sets {
	face := n[distance] - apothem
	out := sets{{"camera.focus", mm(face)}, exposed(slowLight, standardFocal/(face-standardFocal))}
	if b.Rail.Name == "" {
		return out
	}
	at := tenths(min(max(restingPlace, b.Rail.Min), b.Rail.Max))
	path := ".axis." + b.Rail.Name
	return append(out, set{path[1:] + ".at", mm(at)}, set{"scene" + path + ".measured-at", mm(at)})
}

// restingPlace, mm, is where a carriage rests that does not move, if it can.
const restingPlace = 60.

// Numbers of the way through the hole, in mm.
const (
	holeNearest = 250. // from the lens to the lantern's axis at the far end
	holeMargin  = 12.  // between lens and edge
	holeHeight  = 60.  // of its middle, as of the lantern's
)

// throughHole lays the rail aslant, so that the lens begins beside the hole and ends
// before the lantern; the board stands where the lens goes in as far as the hole lets it
// go aside meanwhile.
func (b Bench) throughHole(n numbers) sets {
	heading, sin, cos := "-60 deg", math.Sqrt(3)/2, 0.5
	if n["to"] < n["from"] {
		heading = "120 deg"
	}
	travel := math.Abs(n["to"] - n["from"])
	aside, away := travel*sin, travel*cos
	swept := n["hole"] - slender - 2*holeMargin // by the lens in the hole, sideways
	board := -(holeNearest + swept*cos/sin)
	out := append(b.slide(heading, n["from"]),
		set{"scene.distance", mm(holeNearest + away)},
		set{"scene.aside", mm(-aside)},
		set{"camera.focus", mm(between(holeNearest-radius, holeNearest+away-apothem))},
		set{"scene.holes[1].diameter", mm(n["hole"])},
		set{"scene.holes[1].centre[1]", mm(-swept / 2)},
		set{"scene.dark.centre[1]", mm(-aside)},
		set{"scene.lamps[1].bearing", "65 deg"}, set{"scene.lamps[1].distance", "400 mm"},
		set{"scene.lamps[2].bearing", "-65 deg"}, set{"scene.lamps[2].distance", "500 mm"})
	for _, path := range []string{"scene.holes[1].centre", "scene.dark.centre"} {
		out = append(out, set{path + "[2]", mm(board)}, set{path + "[3]", mm(holeHeight)})
	}
	return out
}

// alike tells how many sides of the product look alike. A prism has three at least; of
// what has fewer alike the outline stays.
func alike(n numbers) sets {
	count := number(n["faces"])
	if n["faces"] < 3 {
		return sets{{"scene.product.symmetry", count}}
	}
	return sets{{"scene.product.sides", count}}
}

// closing is a loop after which a stand that turns at its first speed has turned on by
// whole faces, at the capture rate and with the faces that were answered: of those that
// are not long, the one that comes round nearest to a whole frame, and else the shortest.
// Where that is longer than may be asked for it is a loop as any other.
func (b Bench) closing(a Answers) string {
	any := loop(playback)
	longest, _ := any.read(longestTurn)
	if len(b.Stand.Speeds) == 0 {
		return any.Default
	}
	face := b.Stand.Speeds[0].Period.Mul(answered(capture(), a)).Quo(answered(faces(), a)) // frames
	turns := exact.Int(shortLoop).Quo(face).Ceil()
	best := face.Mul(turns).Round()
	off := best.Sub(face.Mul(turns)).Abs()
	for all := face.Mul(turns); !exact.Int(longLoop).Less(all); all = all.Add(face) {
		if d := all.Round().Sub(all).Abs(); d.Less(off) {
			best, off = all.Round(), d
		}
	}
	if longest.Less(best.Quo(playback)) {
		return any.Default
	}
	return best.String() + " frames"
}

// Loops that are neither short nor long, in frames: of four and of twenty seconds.
const shortLoop, longLoop = 96, 480

// answered is the number of an answer, or that of the question where it is none.
func answered(q Question, a Answers) exact.Rat {
	if _, n, err := q.answer(a[q.Name]); err == nil {
		return n
	}
	n, _ := q.read(q.Default)
	return n
}

// What the lamps of the pieces ask of the camera far away, as ISO marks sensitivity, with
// aperture and shutter of the pieces: a value that the verdict on the light calls right.
// Close up the picture wants more, by the square of one plus the magnification.
const (
	slowLight  = 1080. // f/18, 1/250 s; and f/9, 1/1000 s
	macroLight = 660.  // f/14, 1/250 s
	// singleLight is of a lamp of 300 lm and f/11, of a second.
	singleLight = 85.
)

// sensitivities are those that cameras offer, a third of a stop apart (common practice).
var sensitivities = []float64{100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400}

// exposed sets the sensitivity for a magnification, to the nearest that there is.
func exposed(light, magnification float64) set {
	want := light * (1 + magnification) * (1 + magnification)
	best := slices.MinFunc(sensitivities, func(a, b float64) int {
		return cmp.Compare(math.Abs(math.Log(a/want)), math.Abs(math.Log(b/want)))
	})
	return set{"camera.iso", number(best)}
}
