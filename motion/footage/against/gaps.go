package against

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/footage"
)

// Gap is where the frames of a recording are not one after the other those that the camera took, by
// whoever looked at the frames themselves.
type Gap struct {
	Frame   int // the first frame after it, or the first that shows again what the one before did
	Missing int // frames that were lost before it
	Twice   int // frames from it on that show again what the one before did
	// Sure tells that the motion says so too, to a frame. Where it does not, as in a rest, Missing and
	// Twice are those that were handed in.
	Sure bool
}

const (
	// mostGaps is how many gaps are weighed one by one: each is an unknown of a dense solve, and a
	// recording that lacks a frame every second of half a minute is to be made anew.
	mostGaps = 24
	// mostMissing is how many frames one gap may have: with more nobody knows what the rig did
	// meanwhile.
	mostMissing = 48
	// gapTurns is how often gaps are counted anew, each by what the others are found to be.
	gapTurns = 3
	// wholeFrames is by how much of a frame a gap may miss a whole number of them and be counted: a
	// camera loses whole frames.
	wholeFrames = 0.25
)

// inOrder are gaps that a recording may have, the first first.
func inOrder(gaps []Gap, c footage.Course) (out []Gap) {
	n := len(c.Frames)
	for _, g := range gaps {
		if g.Twice > 0 && goesOn(c.Frames, g) {
			g.Twice = 0
		}
		if g.Frame > 0 && g.Frame < n && (g.Missing > 0 || g.Twice > 0) {
			g.Missing, g.Twice = min(max(g.Missing, 0), mostMissing), min(max(g.Twice, 0), n-g.Frame)
			out = append(out, g)
		}
	}
	slices.SortStableFunc(out, func(a, b Gap) int { return cmp.Compare(a.Frame, b.Frame) })
	return out
}

// heldShare is the share of the steps beside them that frames may go on by which show one that was
// there before: what is known of a pose is finer, and an encoder moves nothing.
const heldShare = 0.5

// goesOn tells whether the picture goes on in frames that are said to be the one before once more.
func goesOn(frames []footage.Frame, g Gap) bool {
	last := g.Frame + g.Twice - 1
	if g.Frame < 2 || last+1 >= len(frames) {
		return false
	}
	step := func(from, to int) (size float64, known bool) {
		a, b := frames[from].FromFirst, frames[to].FromFirst
		return math.Hypot(b.X-a.X, b.Y-a.Y), a.Known && b.Known
	}
	held, ok := step(g.Frame-1, last)
	before, ok1 := step(g.Frame-2, g.Frame-1)
	after, ok2 := step(last, last+1)
	return ok && ok1 && ok2 && held > heldShare*float64(g.Twice)*min(before, after) && held > leastPx
}

// mended is a recording with a place for each frame that is missing, of which nothing is known, and
// without those that are there twice; and where each frame that was recorded is in it.
func mended(c footage.Course, gaps []Gap) (out footage.Course, places []float64) {
	out.About = c.About
	twice := 0
	for i, f := range c.Frames {
		for len(gaps) > 0 && gaps[0].Frame == i {
			for range gaps[0].Missing {
				out.Frames = append(out.Frames, footage.Frame{FromFirst: footage.Pose{Scale: 1}})
			}
			twice = max(twice, gaps[0].Twice)
			gaps = gaps[1:]
		}
		if twice > 0 {
			twice--
			places = append(places, float64(len(out.Frames)-1))
			continue
		}
		places = append(places, float64(len(out.Frames)))
		out.Frames = append(out.Frames, f)
	}
	return out, places
}

// recorded is the frame of the recording, a fraction, that shows a frame of the mended one.
func (s series) recorded(frame float64) float64 {
	last := len(s.places) - 1
	switch {
	case last < 0 || frame <= s.places[0]:
		return frame
	case frame >= s.places[last]:
		return float64(last) + frame - s.places[last]
	}
	k, _ := slices.BinarySearch(s.places, frame)
	for k > 0 && s.places[k] > frame {
		k--
	}
	if s.places[k+1] == s.places[k] {
		return float64(k)
	}
	return float64(k) + (frame-s.places[k])/(s.places[k+1]-s.places[k])
}

// seenAt is the frame of the recording, a fraction, that shows a planned frame.
func (l *laid) seenAt(planned float64) float64 { return l.recorded(l.shown(planned)) }

// counting is gaps with as many frames as the motion says, and whether that says other than was
// thought. A gap over which time goes on is none.
func (l *laid) counting(gaps []Gap) (out []Gap, other bool) {
	if len(gaps) > mostGaps {
		return gaps, false
	}
	c := l.copied()
	c.warps = c.warps[:1:1]
	const first = 1
	for _, g := range gaps {
		shape := make([]float64, c.n)
		for i := int(l.places[g.Frame]); i < c.n; i++ {
			shape[i] = 1
		}
		c.warps = append(c.warps, warp{shape: shape})
	}
	c.robust()
	c.sigma = c.scales()
	c.fit()
	c.doubts()
	scale := c.grown()
	for k, g := range gaps {
		w := c.warps[first+k]
		off := math.Round(w.late)
		g.Sure = Cover*scale*w.sure < 1 && math.Abs(w.late-off) < wholeFrames
		if g.Sure && off != 0 {
			g.Missing, other = max(g.Missing-int(off), 0), true
		}
		if g.Missing > 0 || g.Twice > 0 {
			out = append(out, g)
		}
	}
	return out, other
}

// grown is by how much what is left over is more than noise, at the least 1.
func (l *laid) grown() float64 {
	n := ways*l.counted() - float64(len(l.result.kept))
	return math.Sqrt(max(1, l.squares()/max(1, n)))
}

// whole lays a take of which frames are missing or there twice: with all in their place, where that
// is how the motion goes, as it was recorded where it is not.
func whole(c footage.Course, t track, gaps []Gap) Result {
	l, others, gaps := inPlace(c, t, gaps)
	if l == nil || !slices.ContainsFunc(gaps, func(g Gap) bool { return g.Sure }) && len(gaps) <= mostGaps {
		if asIs := asRecorded(c, t); l == nil || asIs.Verdict.Kind == IsPlan {
			return asIs
		}
	}
	res := witnessed(l, others)
	res.Gaps = gaps
	if res.Verdict.Kind == IsPlan {
		return res.gapped(t)
	}
	asIs := asRecorded(c, t)
	switch {
	case asIs.Verdict.Kind == IsPlan:
		return asIs
	case len(gaps) > mostGaps:
		return asIs.doubted(gaps)
	case asIs.Plain.RMS <= res.Plain.RMS:
		return asIs
	}
	return res.gapped(t)
}

// inPlace lays a take with as many frames in each gap as the motion says; nil where there are none.
func inPlace(c footage.Course, t track, gaps []Gap) (l *laid, others []Number, left []Gap) {
	for range gapTurns {
		m, places := mended(c, gaps)
		s := newSeries(m)
		s.places, s.absent = places, absent(gaps)
		if s.silent(t) != nil {
			return nil, nil, nil
		}
		if l, others = placed(t, s); l == nil {
			return nil, nil, nil
		}
		counted, other := l.counting(gaps)
		if gaps = counted; len(gaps) == 0 {
			return nil, nil, nil
		}
		if !other {
			break
		}
	}
	return l, others, gaps
}

func absent(gaps []Gap) (n int) {
	for _, g := range gaps {
		n += g.Missing
	}
	return n
}

// doubted is a result that frames which are amiss may have spoilt, where there are too many of them to
// be put in their place.
func (r Result) doubted(gaps []Gap) Result {
	if r.Verdict.Kind != Differs {
		return r
	}
	r.Gaps = gaps
	why := fmt.Sprintf("frames are missing or there twice in %d places, and up to %d of them can be told from what the rig did", len(gaps), mostGaps)
	r.Verdict.Kind, r.Verdict.Causes, r.Verdict.Why = NotKnown, nil, append([]string{why}, r.Verdict.Why...)
	r.Verdict.Text = "NOT KNOWN WELL ENOUGH: " + strings.Join(r.Verdict.Why, "; ")
	return r
}

// gapped says of a take what is missing in it, and what the rest is.
func (r Result) gapped(t track) Result {
	what := gapWords(r.Gaps)
	v := &r.Verdict
	own := Reason{Cause: Gaps, Frame: float64(r.Gaps[0].Frame), Text: what}
	for a, m := range r.Axes { // what a frame is, where the motion is fastest
		for k := t.first; k < t.last; k++ {
			own.Px = max(own.Px, math.Abs(t.speed(a, k))*m.PxPerUnit.Value)
		}
	}
	switch v.Kind {
	case IsPlan:
		v.Kind, v.Mended = Differs, true
		v.Causes = []Reason{own}
		v.From = own.Frame
		v.Text = fmt.Sprintf("the recording is not whole: %s; with each frame in its place the rest is the plan, %.1f px", what, math.Ceil(10*max(v.Apart, v.Sure))/10)
		if len(r.Gaps) == 1 && r.Gaps[0].Missing == 1 && r.Gaps[0].Twice == 0 {
			v.Text = fmt.Sprintf("the recording is not whole: %s; with it in its place the rest is the plan, %.1f px", what, math.Ceil(10*max(v.Apart, v.Sure))/10)
		}
	default:
		v.Text += "; besides the recording is not whole: " + what
		if v.Kind == Differs {
			v.Causes = append(v.Causes, own)
		}
	}
	return r
}

// gapWords is what is missing, gap by gap. Many are told as how many there are.
func gapWords(gaps []Gap) string {
	const named = 4
	var out []string
	for k, g := range gaps {
		if k == named {
			out = append(out, fmt.Sprintf("and so on, in %d places", len(gaps)))
			break
		}
		out = append(out, g.words(len(gaps) <= mostGaps)...)
	}
	return strings.Join(out, ", ")
}

func (g Gap) words(weighed bool) (out []string) {
	unsure := ""
	if weighed && !g.Sure {
		unsure = ", or another number: nothing moves there by which to count them"
	}
	if g.Twice == 1 && g.Missing == 1 {
		return []string{fmt.Sprintf("frame %d is the one before once more, in place of one that is missing%s", g.Frame, unsure)}
	}
	switch {
	case g.Twice == 1:
		out = append(out, fmt.Sprintf("frame %d is the one before once more", g.Frame))
	case g.Twice > 1:
		out = append(out, fmt.Sprintf("frames %d to %d are the one before once more", g.Frame, g.Frame+g.Twice-1))
	}
	switch {
	case g.Missing == 1:
		out = append(out, fmt.Sprintf("one frame is missing after %d%s", g.Frame-1, unsure))
	case g.Missing > 1:
		out = append(out, fmt.Sprintf("%d frames are missing after %d%s", g.Missing, g.Frame-1, unsure))
	}
	return out
}
