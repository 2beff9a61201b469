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
	// leastShare is how much of what moves in a round must have been seen.
	leastShare = 0.95
	// mostLeftOver is how much of what take and plan differ by the causes may leave, as a share of
	// sizes, and still be called the causes.
	mostLeftOver = 0.5
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
		v.From = float64(from)
		w.seen *= inPart // they differ: what does its part in that is a cause
	}
	v.Causes = w.reasons()
	leftOver, at := l.apart(m, limit)
	if at >= 0 && (len(v.Causes) == 0 || leftOver > mostLeftOver*v.Apart) || w.anyMotion() {
		at = max(at, 0)
		other := Reason{Cause: OtherMotion, Frame: float64(at), Px: leftOver,
			Text: fmt.Sprintf("it is another motion: whatever explains the rest, %.2g px are left around frame %d", leftOver, at)}
		v.Causes = []Reason{other}
		r.nothingSure(w)
	}
	for _, c := range w.wrong(r) {
		if c.Cause == WrongWay && (len(v.Causes) == 0 || v.Causes[0].Cause != OtherMotion) {
			v.Causes = slices.Insert(v.Causes, 0, c)
		} else {
			v.Causes = append(v.Causes, c)
		}
	}
	v.Why = w.why(r, v)
	return w.said(v, r)
}

// hidden is the uncertainty that poses state beyond what differs from frame to frame, px: it is
// the same in neighbours, as where poses are chained, and no mean makes it less.
func (w *witness) hidden(r *Result) float64 {
	return math.Sqrt(max(0, w.full.doubt*w.full.doubt-r.Noise*r.Noise))
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

// extreme is how many standard deviations the greatest of so many windows of chance is beyond
// which one in a thousand takes lies: by the tail of the normal, exp(-z*z/2), of each of the ways.
func extreme(n, m int) float64 {
	windows := ways * float64(n) / float64(m) * 4 // they overlap
	return math.Sqrt(2 * math.Log(1000*max(1, windows)))
}

// apart is the most that the mean of m frames is off by, and the first frame of the first that is
// off by more than a bound; -1 where none is.
func (l *laid) apart(m int, bound float64) (most float64, first int) {
	first = -1
	many := l.alone() > fewAlone
	for i := 0; i+m <= l.n; i++ {
		var sum effect
		var each [ways][]float64
		n, all := 0.0, l.off(i, i+m)
		for k := i; k < i+m; k++ {
			if l.weights[k] > 0 || l.known[k] && all {
				n++
				for w := range sum {
					sum[w], each[w] = sum[w]+l.r[w][k], append(each[w], l.r[w][k])
				}
			}
		}
		if n < float64(m)/2 {
			continue
		}
		for w := range sum {
			if many { // an outlier that nobody marked is among them
				sum[w] = n * middle(each[w])
			}
		}
		d := sum.size() / n * math.Sqrt(n/float64(m))
		if most = max(most, d); d > bound && first < 0 {
			first = i
		}
	}
	return most, first
}

// mostly is the share of a window's frames that must be known for it to be off as a whole.
const mostly = 0.8

// off tells whether none of a window's frames has any weight, and all are off alike: they are no
// outliers then, the motion is off.
func (l *laid) off(from, to int) bool {
	var sum effect
	n, squares := 0.0, 0.0
	for i := from; i < to; i++ {
		switch {
		case l.weights[i] > 0:
			return false
		case l.known[i]:
			n++
			for w := range sum {
				sum[w] += l.r[w][i]
				squares += l.r[w][i] * l.r[w][i]
			}
		}
	}
	mean := sum.size() / max(1, n)
	// They scatter less than they are off, and nearly all of them are known.
	return n >= mostly*float64(to-from) && squares/n < 2*mean*mean
}

// reasons are the causes that were found and are seen, the one that explains most first.
func (w *witness) reasons() (out []Reason) {
	for _, f := range w.found {
		if f.shows <= w.seen {
			continue
		}
		at := w.full.shown(f.frame)
		if f.cause == LateClock || f.cause == Drift {
			at = 0
		}
		out = append(out, Reason{Cause: f.cause, Frame: max(0, at), Lowers: f.lowers, Px: f.shows, Text: w.words(f)})
	}
	slices.SortStableFunc(out, func(a, b Reason) int {
		switch {
		case a.Lowers > b.Lowers:
			return -1
		case a.Lowers < b.Lowers:
			return 1
		}
		return 0
	})
	return out
}

// words are what is said of a cause.
func (w *witness) words(f found) string {
	l := w.full
	at := max(0, l.shown(f.frame))
	switch f.cause {
	case LateClock:
		return fmt.Sprintf("the take goes slower than its plan by %.3g %% all along, below 0 faster: two clocks differ, or it is a loop of another length", 100*w.rate().Value)
	case SlowRound:
		return fmt.Sprintf("round %d takes longer or shorter than planned, from frame %.0f on", f.round+1, at)
	case OtherPause:
		if f.round < 0 {
			return fmt.Sprintf("in each round the move after the rest at planned frame %.0f is late or early: a dwell of another length", f.frame)
		}
		return fmt.Sprintf("all after the rest at frame %.0f is late or early: it stood for longer or shorter", at)
	case LostSteps:
		return fmt.Sprintf("%s is off from its turn at frame %.0f on: lost steps", l.Axes[f.axis].Name, at)
	case Backlash:
		b := w.play(f.axis)
		text := fmt.Sprintf("%s lags by %.3g %s after each turn: backlash", l.Axes[f.axis].Name, b.Value, l.Axes[f.axis].unit())
		if turns, _ := l.turns(f.axis); len(turns) == 1 {
			text += ", or steps lost at its turn: with one turn the two look the same"
		}
		return text
	case AfterShake:
		return fmt.Sprintf("it swings after moves, at %.3g Hz: after-shake", f.swing.Frequency)
	case Blow:
		return fmt.Sprintf("a blow to table or camera at frame %.0f", at)
	case Drift:
		return "the view creeps: stand, table or lens drifts"
	}
	return f.cause.String()
}

// wrong are axes that show otherwise than is known of them.
func (w *witness) wrong(r *Result) (out []Reason) {
	l := w.full
	for a, axis := range l.Axes {
		if !r.Axes[a].Told || axis.Gain == nil && !(axis.Across && l.PxPerMM > 0) {
			continue
		}
		e, sure := l.effect(a)
		if reason, ok := axis.wrong(l, a, e, sure.along(e)*w.grow); ok {
			out = append(out, reason)
		}
	}
	return out
}

// wrong tells whether an axis shows otherwise than is known of it, seen and its uncertainty in px
// a unit.
func (a Axis) wrong(l *laid, axis int, seen effect, sure float64) (Reason, bool) {
	know := a.expected(l.arm)
	if a.Gain == nil { // its size is known, its direction is not
		know = effect{seen[right], seen[down]}
		for k := range know {
			know[k] *= l.PxPerMM / max(math.Hypot(seen[right], seen[down]), math.SmallestNonzeroFloat64)
		}
		seen = effect{seen[right], seen[down]}
	}
	size := know.size()
	if size == 0 {
		return Reason{}, false
	}
	times := seen.dot(know) / (size * size)
	off := effect{}
	for k := range off {
		off[k] = seen[k] - know[k]
	}
	px, may := off.size()*l.travel[axis], Cover*math.Hypot(a.share(l.Plan)*size, sure)*l.travel[axis]
	if px <= max(Floor, may, Cover*l.doubt) {
		return Reason{}, false
	}
	at := max(0, l.shown(0))
	if times < 0 && -times*size > Cover*sure {
		return Reason{Cause: WrongWay, Frame: at, Px: px, Text: a.Name + " goes the other way than planned"}, true
	}
	return Reason{Cause: OtherTravel, Frame: at, Px: px,
		Text: fmt.Sprintf("%s shows %.1f %% of what it should: another travel, a wrong scale of its steps, or a product that stands nearer or farther", a.Name, 100*times)}, true
}

// unproven is what a take cannot prove.
func (w *witness) unproven(r *Result) (out []string) {
	l := w.full
	for a, axis := range l.Axes {
		switch {
		case l.travel[a] == 0:
		case !r.Axes[a].Told:
			out = append(out, axis.Name+" goes so like another axis that the picture does not tell them apart")
		case axis.Gain == nil && axis.Across && l.PxPerMM > 0:
			out = append(out, "which way "+axis.Name+" goes: nobody has said how it shows")
		case axis.Gain == nil:
			out = append(out, "how far and which way "+axis.Name+" goes: nobody has said how it shows")
		}
		if e, _ := l.effect(a); r.Axes[a].Told && e.size()*l.travel[a] < max(1, seenMove*r.Noise) {
			out = append(out, axis.Name+" is not seen to move the picture")
		}
	}
	return out
}

// why is what keeps a take from being known.
func (w *witness) why(r *Result, v Verdict) (out []string) {
	l := w.full
	say := func(bad bool, format string, with ...any) {
		if bad {
			out = append(out, fmt.Sprintf(format, with...))
		}
	}
	say(v.Bound > MostBound, "the picture is known to %.2g px for what lasts a quarter of a second, and %g px is needed: less grain or a larger region would do", v.Bound, MostBound)
	f0 := r.Frame0
	say(!(f0.Sure < mostDoubt), "frame 0 is known to %.2g frames only: its motion is too even to tell; a mark before the take would", f0.Sure)
	say(r.Compared.Share < leastShare, "only %.0f %% of what moves in a round was seen, planned frames %.0f to %.0f", 100*r.Compared.Share, r.Compared.From, r.Compared.To)
	known := float64(l.n - r.Compared.Unknown)
	if from, to, ok := l.burst(); ok {
		say(true, "frames %d to %d are off by more than chance, by too little or for too short to say what it is", from, to)
	}
	say(float64(r.Alone) > mostAlone*known, "%d of %.0f frames say something else than both their sides", r.Alone, known)
	say(float64(r.Compared.Unknown) > mostUnknown*float64(l.n), "of %d of %d frames nobody knows how they lie", r.Compared.Unknown, l.n)
	return out
}

// said puts a verdict into words.
func (w *witness) said(v Verdict, r *Result) Verdict {
	if len(v.Causes) > 0 {
		if c := v.Causes[0]; v.From < 0 || c.Lowers > 0 && c.Cause != LateClock && c.Cause != Drift {
			v.From = c.Frame
		}
		v.Kind = Differs
		v.Text = fmt.Sprintf("this take is not the plan from frame %.0f on; most likely %s", v.From, v.Causes[0].Text)
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
