// Package hands tells when something acted in a picture by itself, beside the camera's motion, and
// so whether the hands of a set did what they were to do when they were to.
//
// Of each frame it is given a coarse grid of what is left of the difference to the frame before
// once the camera's motion is taken out, with how much of that the taking out may have made. A
// cell is called changed where that is far more than it usually is there: a scale over the take that
// a few large values do not move (a median of absolute values; P. J. Huber, Robust Statistics, Wiley
// 1981, DOI 10.1002/0471725250, section 5.1), and what the taking out may make. What changes so is taken to be the hand or what it lets go of: a model,
// which knows no hand from a moth.
package hands

import (
	"math"
	"slices"
)

// Film is what is left of each frame.
type Film interface {
	Len() int
	Cells() (across, down int)
	// Left fills, for each cell, by how much frame n is brighter than the frame before led to expect,
	// of white, and how much the expectation itself may be out by; infinite where the frame before
	// did not show the place. False where nobody knows how the two frames lie on each other.
	Left(n int, left, doubt []float32) bool
}

// Mover is a film that is held against the frame before, and tells how far the camera moved in a
// frame, in cells. What such motion makes of a scene that is deep, only frames with as much motion
// and without a hand show.
type Mover interface {
	Moved(n int) float64
}

// Region is a part of the picture, in shares of it from its left upper corner.
type Region struct{ Left, Top, Right, Bottom float64 }

// Whole is all of a picture.
func Whole() Region { return Region{0, 0, 1, 1} }

// Cue is what a hand was to do, in frames of the film.
type Cue struct {
	Opens, Closes float64 // the window in which the picture is to begin to change
	Sure          float64 // the standard uncertainty of both
	Region        Region  // where
}

// Kind is how an action was.
type Kind int

// How it may be.
const (
	NotTold Kind = iota
	NotSeen
	Inside
	Early
	Late
)

// String is the word for it.
func (k Kind) String() string {
	return [...]string{"not told", "not seen", "inside", "early", "late"}[k]
}

// Seen is what was seen of a cue.
type Seen struct {
	Kind        Kind
	By          int     // frames by which it began before its window opened, or after it closed
	First, Last int     // the frames in which the picture began and ended to change; both 0 where nothing did
	After       int     // frames by which it went on after its window closed; 0 where it did not
	Where       Region  // in which cells
	Limit       float64 // of what was not seen: what a cell would have had to change by, of white
	Why         string  // it is not told
}

const (
	// reach is how far from its window a hand is looked for, s: who is further off did something
	// else, or missed the round.
	reach = 1.5
	// apart is how long nothing may change within one action, s: a hand that holds still.
	apart = 0.5
	// sigmas are how far beyond its usual a cell changes that is called changed; grain of 1300
	// cells comes to five of them once in a thousand frames.
	sigmas = 6
	// least is the least change that counts, of white: two steps of 8 bits.
	least = 2.0 / 255
	// faint is what a hand is taken to change a cell by at least, of white: skin before a dark board,
	// or a stream that is lit, changes it by more. Where only more than this would stand out, nothing
	// is said of what was not seen.
	faint = 0.1
	// busy is the share of frames in which a cell may change before it says nothing of a hand: a
	// flame, or a product that turns.
	busy = 0.4
	// restless is the same of the whole picture, away from all cues.
	restless = 0.25
	// enough is how many frames tell that.
	enough = 24
	// stands is how far a camera that stands may be found to move in a frame, in cells: a twentieth,
	// which moves no edge by what is a step of 8 bits.
	stands = 0.05
	// known is the share of frames about a window of which it must be known how they lie.
	known = 0.8
	// beside is how many cells two changed ones may be apart to be one thing, across and down.
	beside = 3
)

// Look tells what was seen of each cue, at so many frames a second of real time.
func Look(f Film, rate float64, cues []Cue) []Seen {
	out := make([]Seen, len(cues))
	if len(cues) == 0 {
		return out
	}
	w := newWatch(f)
	acts := map[Region]*track{}
	for n, c := range cues {
		if acts[c.Region] == nil {
			acts[c.Region] = w.through(c.Region, rate, cues)
		}
		out[n] = look(acts[c.Region], rate, cues, n)
	}
	return out
}

// look tells what was seen of one cue.
func look(t *track, rate float64, cues []Cue, n int) Seen {
	c := cues[n]
	if math.Floor(c.Opens) < 1 || math.Ceil(c.Closes) > float64(len(t.acts)-1) {
		return Seen{Why: "its window was not recorded"}
	}
	from, to, alone := between(rate, cues, n)
	if !alone {
		return Seen{Why: "another hand acts at the same time"}
	}
	lo, hi := max(1, int(from)), min(len(t.acts)-1, int(to))
	if t.knownIn(lo, hi) < known {
		return Seen{Why: "how the frames about it lie on each other is not known"}
	}
	of, moved := t.elsewhere(rate, cues, t.fastest(lo, hi)/2)
	switch {
	case of >= enough && moved > restless*float64(of):
		return Seen{Why: "something moves all along"}
	case of < enough && t.fastest(lo, hi) > stands:
		return Seen{Why: "the camera moves, and nothing shows what that alone changes"}
	}
	s, ok := t.nearest(c, lo, hi)
	if !ok {
		limit := t.limit(int(c.Opens), int(math.Ceil(c.Closes)))
		if limit > faint {
			return Seen{Why: "the picture changes so much anyway that a hand would not stand out"}
		}
		return Seen{Kind: NotSeen, Limit: limit}
	}
	return against(c, s)
}

// against holds what changed against the window of a cue: a frame either way is the grid of time
// itself, and two uncertainties are where the window may be.
func against(c Cue, s span) Seen {
	may := 1 + 2*c.Sure
	out := Seen{Kind: Inside, First: s.first, Last: s.last, Where: s.where}
	switch first := float64(s.first); {
	case first < c.Opens-may:
		out.Kind, out.By = Early, int(math.Round(c.Opens-first))
	case first > c.Closes+may:
		out.Kind, out.By = Late, int(math.Round(first-c.Closes))
	}
	if over := float64(s.last) - c.Closes; over > may && out.Kind != Late {
		out.After = int(math.Round(over))
	}
	return out
}

// between is how far about its window a cue is looked for: half the way to the next at most. It is
// not alone where the windows of two overlap in the same place.
func between(rate float64, cues []Cue, n int) (from, to float64, alone bool) {
	c := cues[n]
	from, to = c.Opens-reach*rate, c.Closes+reach*rate
	for k, other := range cues {
		switch {
		case k == n || other.Region != c.Region:
		case other.Closes < c.Opens:
			from = max(from, (other.Closes+c.Opens)/2)
		case other.Opens > c.Closes:
			to = min(to, (other.Opens+c.Closes)/2)
		default:
			return from, to, false
		}
	}
	return from, to, true
}

// nearest is all that acted in a window or, where nothing did, what was nearest to it.
func (t *track) nearest(c Cue, lo, hi int) (span, bool) {
	found, best := span{}, math.Inf(1)
	for _, s := range t.spans {
		if s.last < lo || s.first > hi {
			continue
		}
		far := math.Max(0, math.Max(c.Opens-float64(s.last), float64(s.first)-c.Closes))
		switch {
		case far == 0 && best == 0:
			found.last, found.where = s.last, found.where.and(s.where)
		case far < best:
			found, best = s, far
		}
	}
	return found, !math.IsInf(best, 1)
}

// knownIn is the share of frames of which it is known how they lie.
func (t *track) knownIn(lo, hi int) float64 {
	if hi < lo {
		return 0
	}
	n := 0
	for _, ok := range t.known[lo : hi+1] {
		if ok {
			n++
		}
	}
	return float64(n) / float64(hi+1-lo)
}

// elsewhere counts the frames away from all cues in which the camera moved as fast, and those of
// them in which the picture changed by itself.
func (t *track) elsewhere(rate float64, cues []Cue, fast float64) (of int, moved float64) {
	for n := 1; n < len(t.acts); n++ {
		if about(n, rate, cues) || !t.known[n] || t.moved[n] < fast {
			continue
		}
		of++
		if t.acts[n] {
			moved++
		}
	}
	return of, moved
}

// fastest is the most that the camera moved in a frame.
func (t *track) fastest(lo, hi int) float64 { return slices.Max(t.moved[lo : hi+1]) }

// limit is what must change at least to be seen in a window, as it is in the middle of the frames.
func (t *track) limit(lo, hi int) float64 {
	list := slices.Clone(t.limits[max(lo, 1):min(hi+1, len(t.limits))])
	list = slices.DeleteFunc(list, func(v float64) bool { return v == 0 })
	if len(list) == 0 {
		return math.Inf(1)
	}
	slices.Sort(list)
	return list[len(list)/2]
}
