// Package passes tells how well takes match that are to be laid over each other: of one
// group, each a pass, as light, product and clean plate. All it knows is what the log of
// takes tells of them.
package passes

import (
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/edit/selects"
)

// Filmed is a take of a group, as the log of takes tells it.
type Filmed struct {
	Take    int
	Pass    string // what of the group it is
	Plan    string // the hash of the plan that it was filmed by
	Start   Start
	Clip    string // what the camera calls its recording; "" = not known
	Rounds  int64
	Planned float64 // s of motion
	Took    float64 // as measured; 0 = not
	OutBy   float64 // s that Took may be out either way
	Held    bool    // it was stopped and went on, out of step with the frames
	Cut     bool    // nothing is told of its end
	Ended   string  // how, if it was not at the end of its last round
	Keep    bool
	Why     string        // it was rejected; "" = it was not
	Off     []selects.Off // by how much at most, as reports showed
	Stills  *Stills       // taken frame by frame; nil = the camera ran
	Marks   *syncmark.Made
	Zero    *Zero // where its frame 0 is, by its sync mark; nil = not known
}

// Stills are the frames of a take frame by frame.
type Stills struct {
	From    int64 // the first: those before are of an earlier take
	Exposed int64 // those before among them
	Of      int64 // in all; 0 = not told
}

// Zero is where frame 0 of a take begins in its recording, in captured frames.
type Zero struct {
	Seen      bool
	Mark      int64   // the frame of the recording in which its sync mark was first Seen
	From, Out float64 // from that to frame 0, and how far that may be out
}

// Start is how a take began.
type Start struct {
	Capture exact.Rat // frames/s
	Frames  int64     // captured in a round
	RunUp   float64   // s
	Axes    []Place
}

// Place is where an axis began, in mm or degrees.
type Place struct {
	Axis, Unit string
	Planned    float64
	Stood      *float64 // as reported; nil = not told
	From       string   // the side it came from; "" for an axis that rests in the take, and where that is not known
	Low, High  float64  // the ends of its way in a round
}

// Name is what a take is called.
func (f Filmed) Name() string { return fmt.Sprintf("take %d, %s", f.Take, f.Pass) }

// useless says why a take cannot be laid over others, or "".
func (f Filmed) useless() string {
	switch {
	case f.Cut:
		return "nothing is told of its end"
	case f.Ended != "":
		return fmt.Sprintf("it ended as %q", f.Ended)
	case f.Held:
		return "it was stopped and went on, out of step with the frames"
	case f.Why != "":
		return "it was rejected: " + f.Why
	case f.Stills != nil && f.Stills.Exposed < f.Stills.Of:
		return fmt.Sprintf("it has %d of its %d frames", f.Stills.Exposed, f.Stills.Of)
	}
	return ""
}

// whole tells whether all that is filmed of the pass is in the take.
func (f Filmed) whole() bool { return f.Stills == nil || f.Stills.From == 0 }

// Differs says in which ways a take is not filmed as another one was; nothing where it is.
func Differs(a, b Filmed) []string {
	if a.Plan == b.Plan {
		return nil
	}
	var out []string
	say := func(what, was, is string) {
		if was != is {
			out = append(out, fmt.Sprintf("%s is %s, and was %s", what, is, was))
		}
	}
	say("the capture rate", a.Start.Capture.String()+" frames/s", b.Start.Capture.String()+" frames/s")
	say("a round", fmt.Sprintf("%d captured frames", a.Start.Frames), fmt.Sprintf("%d captured frames", b.Start.Frames))
	say("the run-up", fmt.Sprintf("%.3f s", a.Start.RunUp), fmt.Sprintf("%.3f s", b.Start.RunUp))
	for _, p := range a.Start.Axes {
		k := slices.IndexFunc(b.Start.Axes, func(q Place) bool { return q.Axis == p.Axis })
		if k < 0 {
			out = append(out, fmt.Sprintf("axis %s is not there", p.Axis))
			continue
		}
		q := b.Start.Axes[k]
		say("the start of "+p.Axis, place(p.Planned, p.Unit), place(q.Planned, q.Unit))
		say("the way of "+p.Axis, way(p), way(q))
	}
	for _, q := range b.Start.Axes {
		if !slices.ContainsFunc(a.Start.Axes, func(p Place) bool { return p.Axis == q.Axis }) {
			out = append(out, fmt.Sprintf("axis %s was not there", q.Axis))
		}
	}
	if len(out) == 0 {
		out = append(out, "a law, a time on the way or a limit of the rig is another; ends, start and rates are the same")
	}
	return out
}

func place(x float64, unit string) string { return fmt.Sprintf("%.3f %s", x, unit) }

func way(p Place) string { return fmt.Sprintf("%.3f to %.3f %s", p.Low, p.High, p.Unit) }

// Unseen is how many px passes that are laid over each other may be apart: below half a
// pixel no pixel need change, which is also what a seam may jump by.
const Unseen = 0.5

// Answer is whether passes that were filmed alike match.
type Answer int

// The answers. NotSure is of a figure that, with what it may be out by, reaches over the bound.
const (
	NotKnown Answer = iota // in px
	Matches
	NotSure
	Differ
)

// String is what programs are told.
func (a Answer) String() string {
	return [...]string{"not-known", "matches", "not-sure", "differ"}[a]
}

// Answer holds Within against Unseen.
func (g Group) Answer() Answer {
	px, outBy, known := g.Within()
	switch {
	case !known || !g.Whole():
		return NotKnown
	case px+outBy <= Unseen:
		return Matches
	case px-outBy > Unseen:
		return Differ
	}
	return NotSure
}

// Scale is what motion is in the picture, on the near face where that is most.
type Scale struct {
	PerUnit   map[string]float64 // px for a mm or degree of each axis that is seen
	PerSecond float64            // px in a real second where it moves fastest
}

// Known tells whether there is a picture that it is of.
func (s Scale) Known() bool { return s.PerUnit != nil }

// LeftOut is a take that is none to lay over the others, and why.
type LeftOut struct {
	Take int
	Why  string
}

// Group is what there is of a group: of each pass the take that counts.
type Group struct {
	Passes  []Filmed // in the order in which the passes were first begun
	LeftOut []LeftOut
	Matches []Match // of each pass but the first, against that
	Scale   Scale
}

// Of looks at the takes of a group, in the order they began. Of each pass the last that is
// kept counts or, where none is, the last that can be used; one frame by frame that goes on
// with an earlier one, only where none has all its frames.
func Of(takes []Filmed, s Scale) Group {
	g := Group{Scale: s}
	var names []string
	best := map[string]Filmed{}
	for _, f := range takes {
		if !slices.Contains(names, f.Pass) {
			names = append(names, f.Pass)
		}
		why := f.useless()
		old, there := best[f.Pass]
		switch {
		case why != "":
		case there && old.Keep && !f.Keep:
			why = fmt.Sprintf("take %d of the same pass is kept", old.Take)
		case there && old.whole() && !f.whole() && old.Keep == f.Keep:
			why = fmt.Sprintf("take %d of the same pass has all its frames", old.Take)
		case there:
			g.LeftOut = append(g.LeftOut, LeftOut{old.Take, fmt.Sprintf("take %d of the same pass counts", f.Take)})
			best[f.Pass] = f
		default:
			best[f.Pass] = f
		}
		if why != "" {
			g.LeftOut = append(g.LeftOut, LeftOut{f.Take, why})
		}
	}
	for _, name := range names {
		if f, ok := best[name]; ok {
			g.Passes = append(g.Passes, f)
		}
	}
	for i := 1; i < len(g.Passes); i++ {
		g.Matches = append(g.Matches, match(g.Passes[0], g.Passes[i], s))
	}
	return g
}

// Match is how a pass differs from the first one.
type Match struct {
	Take    Filmed
	Differs []string // why they cannot match
	Axes    []Apart
	// Late is by how much later than the first, in s, it comes to the end of as much motion
	// as both have, known to Doubt either way; LateKnown where both were measured.
	Late, Doubt float64
	LateKnown   bool
	both        float64 // s of the motion that both have
	// Align is where to lay it on the first, by the sync marks of both; nil = they do not tell.
	Align *Align
	// PX is how far apart the pictures are on the near face at the worst, by places and by
	// time, known to OutBy either way; Known where places, time and the picture are.
	PX, OutBy float64
	Known     bool
}

// Align is by how many captured frames a recording is to go back, so that its frame 0 lies
// on that of the first.
type Align struct {
	Frames, Out float64
	Seen        bool // counted from the beginning of each recording; else mark is laid on mark first
}

// Whole is Frames to the nearest frame, and Rest what is left, both in captured frames.
func (a Align) Whole() (whole int64, rest float64) {
	whole = int64(math.Round(a.Frames))
	return whole, a.Frames - float64(whole)
}

// Apart is how far apart two passes were along an axis.
type Apart struct {
	Axis, Unit string
	Start      float64 // at the start, as reported; below 0 the later one stood lower
	Way        float64 // on the way at most, by the worst that reports showed of each
	StartKnown bool
	WayKnown   bool
}

// Most is how far apart at most.
func (a Apart) Most() float64 { return max(math.Abs(a.Start), a.Way) }

// match holds a pass against the first.
func match(a, b Filmed, s Scale) Match {
	m := Match{Take: b, Differs: Differs(a, b)}
	if len(m.Differs) > 0 {
		return m
	}
	m.Known = s.Known()
	for i, p := range a.Start.Axes {
		if i >= len(b.Start.Axes) {
			break
		}
		q := b.Start.Axes[i]
		if p.From != "" && q.From != "" && p.From != q.From {
			m.Differs = append(m.Differs, fmt.Sprintf("axis %s came to its start from %s, and of the first from %s", p.Axis, q.From, p.From))
		}
		x := Apart{Axis: p.Axis, Unit: p.Unit}
		if x.StartKnown = p.Stood != nil && q.Stood != nil; x.StartKnown {
			x.Start = *q.Stood - *p.Stood
		}
		stills := a.Stills != nil // the first frame is one of those on the way
		one, ok := off(a, p.Axis)
		other, too := off(b, p.Axis)
		x.Way, x.WayKnown = one+other, ok && too
		m.Axes = append(m.Axes, x)
		m.Known = m.Known && (x.StartKnown || stills) && x.WayKnown
		m.PX += x.Most() * s.PerUnit[p.Axis]
	}
	m.Known = m.Known && len(m.Differs) == 0
	if a.Stills != nil {
		return m
	}
	m.time(a, b)
	m.align(a, b)
	m.Known = m.Known && m.LateKnown
	m.PX += math.Abs(m.Late) * s.PerSecond
	m.OutBy = m.Doubt * s.PerSecond
	return m
}

// align lays a recording on that of the first by their sync marks.
func (m *Match) align(a, b Filmed) {
	if a.Zero == nil || b.Zero == nil {
		return
	}
	x, y := *a.Zero, *b.Zero
	m.Align = &Align{Frames: y.From - x.From, Out: x.Out + y.Out, Seen: x.Seen && y.Seen}
	if m.Align.Seen {
		m.Align.Frames += float64(y.Mark - x.Mark)
	}
}

// time holds how long both took against each other, for as much motion as both have.
func (m *Match) time(a, b Filmed) {
	if a.Took <= 0 || b.Took <= 0 || a.Planned <= 0 || b.Planned <= 0 {
		return
	}
	m.LateKnown, m.both = true, min(a.Planned, b.Planned)
	m.Late = (b.Took/b.Planned - a.Took/a.Planned) * m.both
	m.Doubt = (a.OutBy/a.Planned + b.OutBy/b.Planned) * m.both
}

// Rate is by how much slower than the first it went, as a share.
func (m Match) Rate() float64 { return m.share(m.Late) }

// RateDoubt is how far Rate may be out.
func (m Match) RateDoubt() float64 { return m.share(m.Doubt) }

func (m Match) share(sec float64) float64 {
	if m.both <= 0 {
		return 0
	}
	return sec / m.both
}

// off is the worst that was reported of an axis.
func off(f Filmed, axis string) (float64, bool) {
	for _, o := range f.Off {
		if o.Axis == axis {
			return math.Abs(o.Value), true
		}
	}
	return 0, false
}

// FrameByFrame tells whether the passes were taken frame by frame.
func (g Group) FrameByFrame() bool { return len(g.Passes) > 0 && g.Passes[0].Stills != nil }

// Whole tells whether every pass can be laid over the first.
func (g Group) Whole() bool {
	return len(g.Passes) > 1 && !slices.ContainsFunc(g.Matches, func(m Match) bool { return len(m.Differs) > 0 })
}

// Within is how far apart the pictures of any two passes are at most, in px, and how far
// that may be out: all are held against the first, so that two others may be both ways
// from it.
func (g Group) Within() (px, outBy float64, known bool) {
	var all, doubts []float64
	for _, m := range g.Matches {
		if !m.Known {
			return 0, 0, false
		}
		all, doubts = append(all, m.PX), append(doubts, m.OutBy)
	}
	return bothWays(all), bothWays(doubts), len(all) > 0
}

// bothWays is the sum of the two greatest.
func bothWays(all []float64) (sum float64) {
	slices.Sort(all)
	for _, x := range all[max(0, len(all)-2):] {
		sum += x
	}
	return sum
}

// Sides are the axes that rest in the take, and those that move and of which it is not known
// in every pass from which side they came to their start.
func (g Group) Sides() (rest, unseen []string) {
	seen := map[string]bool{}
	for _, f := range g.Passes {
		for _, p := range f.Start.Axes {
			to := &rest
			if p.Low < p.High {
				if f.Stills != nil { // an axis without play comes from any, the others from one
					continue
				}
				to = &unseen
			}
			if p.From == "" && !seen[p.Axis] {
				seen[p.Axis] = true
				*to = append(*to, p.Axis)
			}
		}
	}
	return rest, unseen
}

// Camera is what the log cannot see: no camera's clock runs with the rig, so that frames of
// two passes that are laid on each other differ by up to half a frame. It returns that in s,
// and in px where it moves fastest. Where each frame is an exposure of its own, at rest, no
// clock comes into it.
func (g Group) Camera() (sec, px float64) {
	if len(g.Passes) == 0 || g.FrameByFrame() || g.Passes[0].Start.Capture.Sign() <= 0 {
		return 0, 0
	}
	sec = 0.5 / g.Passes[0].Start.Capture.Float()
	return sec, sec * g.Scale.PerSecond
}
