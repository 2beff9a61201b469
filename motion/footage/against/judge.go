package against

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

const (
	// Floor is what take and plan may always differ by, px: a quarter of a pixel between
	// neighbours is not seen in a seam, and phase correlation has errors of its own of a tenth.
	Floor = 0.25
	// Cover is how many standard uncertainties the bound lies above nothing: with four, chance
	// alone puts one window in sixteen thousand beyond it.
	Cover = 4.0
	// MostBound is the bound, px, above which a take is not known well enough: with half a pixel a
	// difference of a whole one cannot hide.
	MostBound = 0.5
	// lasting is how long, s, a difference must last to be one of motion and none of measuring.
	lasting = 0.25
	// mostAlone and mostUnknown are the shares of frames that may say something else, or nothing.
	mostAlone   = 0.1
	mostUnknown = 0.25
	// mostBlind is the share of which nobody knows how they lie above which nothing that the rest
	// say is held against a take: what is seen of a product that turns is a face that goes by.
	mostBlind = 0.5
	// leastShare is how much of what moves in a round must have been seen.
	leastShare = 0.95
	// mostLeftOver is how much of what take and plan differ by the causes may leave, as a share of
	// sizes, and still be called the causes.
	mostLeftOver = 0.5
	// lawLeaves is the same of another law, of which any motion may be made: by so little its waves
	// are no law's.
	lawLeaves = 0.1
)

// inPart is the share of what is seen that a cause must move the picture by where take and plan
// are known to differ.
const inPart = 0.5

// judge says what a take is.
func (w *witness) judge(r *Result) Verdict {
	l := w.full
	m := max(3, int(math.Round(lasting*l.rate)))
	v := Verdict{Sure: math.Hypot(r.Noise/math.Sqrt(float64(m)), w.hidden(r)), From: -1}
	v.Bound = max(Floor, Cover*v.Sure)
	v.Unproven = w.unproven(r)
	limit := max(v.Bound, extreme(l.n, m)*v.Sure)
	w.seen = max(Floor, Cover*w.hidden(r))
	var from int
	v.Apart, from = w.plain.apart(m, limit)
	if from >= 0 {
		v.From = l.recorded(float64(from))
		w.seen *= inPart // they differ: what does its part in that is a cause
	}
	v.Causes = w.reasons()
	leftOver, at := l.apart(m, limit)
	byLaw := len(v.Causes) > 0 && v.Causes[0].Cause == OtherLaw && leftOver <= lawLeaves*v.Apart
	if at >= 0 && (len(v.Causes) == 0 || leftOver > mostLeftOver*v.Apart) || leftOver >= Floor && !byLaw && w.anyMotion() {
		where := l.recorded(float64(max(at, 0)))
		other := Reason{Cause: OtherMotion, Frame: where, Px: leftOver,
			Text: fmt.Sprintf("it is another motion: whatever explains the rest, %.2g px are left around frame %.0f", leftOver, where)}
		v.Causes = []Reason{other}
		r.nothingSure(w)
	}
	if byLaw {
		r.Frame0.Known = false // by its shape it was found, and that is another
	}
	for _, c := range w.wrong(r) {
		if c.Cause == WrongWay && leftOver > max(Floor, mostLeftOver*v.Apart) {
			continue // turned round it is not the plan either
		}
		if c.Cause == WrongWay && (len(v.Causes) == 0 || v.Causes[0].Cause != OtherMotion) {
			v.Causes = slices.Insert(v.Causes, 0, c)
		} else {
			v.Causes = append(v.Causes, c)
		}
	}
	v.Why = w.why(r, v)
	w.unproved(&v, r)
	v = w.said(v, r)
	if n := len(r.Frame0.Others); n > 0 {
		v.Text += fmt.Sprintf("; its frame 0 may be at frame %.1f, or as well at", tenth(r.Frame0.Value))
		for i, o := range r.Frame0.Others {
			if i > 0 {
				v.Text += " or"
			}
			v.Text += fmt.Sprintf(" %.1f", tenth(o.Value))
		}
	}
	return v
}

// nothingSure takes back what was found of a take that is another motion: it is a mixture of
// causes that are none.
func (r *Result) nothingSure(w *witness) {
	r.Shake, r.Blows = nil, nil
	for a := range r.Axes {
		r.Axes[a].Lost, r.Axes[a].Backlash, r.Axes[a].BacklashPx = nil, unknown(), unknown()
	}
	l := w.plain
	r.Frame0.Value = l.warps[0].late
}

// said puts a verdict into words.
func (w *witness) said(v Verdict, r *Result) Verdict {
	if float64(r.Compared.Unknown) > mostBlind*float64(w.full.n) {
		v.Causes, v.From, v.Text = nil, -1, "NOT KNOWN WELL ENOUGH: "+strings.Join(v.Why, "; ")
		return v
	}
	if len(v.Causes) > 0 {
		if c := v.Causes[0]; v.From < 0 || c.Lowers > 0 && !c.Cause.allAlong() {
			v.From = c.Frame
		}
		v.Kind = Differs
		likely := v.Causes[0].Text
		if at := blowsAt(v.Causes); v.Causes[0].Cause == Blow && len(at) > 1 {
			v.From = slices.Min(at)
			likely = fmt.Sprintf("%d blows to table or camera, at frames %s", len(at), inWords(at))
		}
		v.Text = fmt.Sprintf("this take is not the plan from frame %.0f on; most likely %s", v.From, likely)
		return v
	}
	if len(v.Why) > 0 {
		v.Text = "NOT KNOWN WELL ENOUGH: " + strings.Join(v.Why, "; ")
		if v.From < 0 {
			v.Text += fmt.Sprintf("; what was seen agrees within %.2g px", max(v.Apart, Cover*v.Sure))
		}
		return v
	}
	if v.From >= 0 { // the plain fit is off, and what was found to explain it is not seen in any frame
		v.Kind = Differs
		v.Causes = []Reason{{Cause: OtherMotion, Frame: v.From, Px: v.Apart, Text: "something that none of the causes explains"}}
		v.Text = fmt.Sprintf("this take is not the plan from frame %.0f on: %.2g px", v.From, v.Apart)
		return v
	}
	v.Kind = IsPlan
	v.Text = fmt.Sprintf("this take is the plan, %.1f px", math.Ceil(10*max(v.Apart, v.Sure))/10)
	return v
}

// tenth is a number in tenths, and 0 never with a sign.
func tenth(x float64) float64 { return math.Round(10*x)/10 + 0 }

// blowsAt are the frames at which blows are told.
func blowsAt(causes []Reason) (out []float64) {
	for _, c := range causes {
		if c.Cause == Blow {
			out = append(out, c.Frame)
		}
	}
	slices.Sort(out)
	return out
}

// inWords are frames one after the other.
func inWords(frames []float64) (text string) {
	for k, f := range frames {
		switch {
		case k > 0 && k == len(frames)-1:
			text += " and "
		case k > 0:
			text += ", "
		}
		text += fmt.Sprintf("%.0f", f)
	}
	return text
}
