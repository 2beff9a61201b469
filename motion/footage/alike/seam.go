package alike

import (
	"cmp"
	"math"
)

// The score of a seam is one length made of three:
//
//	score^2 = 1 * picture^2 + 1/2 * motion^2 + 4 * brightness^2
//
// with the picture as it remains once brightness is equalised. These weights are ours.
const (
	// pictureWeight makes a jump of the picture the measure of all.
	pictureWeight = 1.0
	// motionWeight lets noise weigh as much in motion as in the picture: two frames of
	// independent noise of variance v differ by 2v, the differences of four by 4v.
	motionWeight = 0.5
	// brightnessWeight counts a jump of the whole picture's brightness twice as long: all of
	// the picture blinks at once, which is seen where a shimmer of the same size is not
	// (common practice).
	brightnessWeight = 4.0
	// darkest is the brightness below which a change is told as a share of this instead: one
	// level of eight bits, since a share of black is none.
	darkest = 1.0 / 255
)

// Pair is a loop of frames First to First+Length-1, after which First is shown again in place
// of frame First+Length.
type Pair struct{ First, Length int }

// Last is the frame whose place the first takes.
func (p Pair) Last() int { return p.First + p.Length }

// before orders pairs of one score: the earlier, then the shorter.
func (p Pair) before(q Pair) int {
	return cmp.Or(cmp.Compare(p.First, q.First), cmp.Compare(p.Length, q.Length))
}

// Seam is how much jumps where a loop begins again. All but Brightness are root mean squares
// over the cells of the sketches, as encoded, 0 to 1. That not the picture alone but how it
// moves must go on is the idea of A. Schödl, R. Szeliski, D. H. Salesin and I. Essa, Video
// Textures, SIGGRAPH 2000, DOI 10.1145/344779.345012; the weights above are not theirs.
type Seam struct {
	Pair
	Score      float64 // of all three; the less, the better
	Picture    float64 // frame First against the frame whose place it takes
	Equalised  float64 // what of that is left once both are equally bright
	Motion     float64 // the steps to and from the one frame against those of the other
	Brightness float64 // how much brighter First is, in % of the other
}

// seam measures a pair.
func (s *Sketches) seam(p Pair) Seam {
	d := s.diagonal(len(s.levels)-1, p.Length)
	if p.First > 0 {
		d.look(p.First - 1)
	}
	picture, before := d.look(p.First)
	after := 0.0
	if p.First+1 < d.pairs() {
		_, after = d.look(p.First + 1)
	}
	from, to := s.Means[p.Last()], s.Means[p.First]
	return Seam{
		Pair: p, Score: math.Sqrt(d.score(p.First, picture, before, after)),
		Picture:    math.Sqrt(picture),
		Equalised:  math.Sqrt(max(0, picture-(to-from)*(to-from))),
		Motion:     math.Sqrt(sides(p.First, d.pairs(), before, after)),
		Brightness: 100 * (to - from) / max(from, darkest),
	}
}
