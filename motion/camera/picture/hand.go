package picture

import (
	"fmt"
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/optics"
	"seamrail/motion/pull"
	"seamrail/motion/scene"
)

// byHand tells whether a hand pulls focus, and pulls whether anything does.
func (e *eye) byHand() bool { return e.scene.Lens.Pull != nil }
func (e *eye) pulls() bool  { return e.pull >= 0 || e.byHand() }

// setHand finds how the focus goes that a hand pulls.
func (e *eye) setHand() fault.List {
	p := e.scene.Lens.Pull
	if p == nil {
		return nil
	}
	if e.pull >= 0 {
		return fault.List{{Quantity: "camera.pull", Bound: "pulls the focus, and so does axis " + e.motion.Axis(e.pull).Name, Fit: "keep one of the two"}}
	}
	if p.Product {
		return nil
	}
	c, err := p.Over(e.shownUntil())
	if err != nil {
		return fault.List{{Quantity: "camera.pull", Bound: err.Error()}}
	}
	e.hand = c
	return nil
}

// handAtSeam is the focus in frame 0 of what a hand pulls; where it follows the product
// that is the distance of the near face, which is found like any other's.
func (e *eye) handAtSeam() scene.Number {
	if e.hand == nil {
		return scene.Number{}
	}
	return scene.Is(e.hand.At(0))
}

// focusedByHand is a setting at sec with the focus where the hand has pulled it. While the
// rig comes back unseen it stays as it is at the seam.
func (e *eye) focusedByHand(sec float64, q setting) setting {
	if e.byHand() && !e.flat {
		q.focus = e.handFocus(sec, q)
	}
	return q
}

func (e *eye) handFocus(sec float64, q setting) float64 {
	if e.hand == nil {
		return e.depthOf(q) + e.ahead
	}
	loop, round := e.shownUntil().Float(), e.motion.Period().Float()
	if sec -= round * math.Floor(sec/round); sec >= loop {
		sec = 0
	}
	return e.hand.At(sec)
}

// late is how late or early a hand may be, in real s.
func (e *eye) late() float64 { return e.bounds.HandLate }

// missedBy is the worst spot on the near face, in px, with all that the hand does so much
// later; and in which row that is, -1 where none is known.
func (e *eye) missedBy(rows []Row, later float64) (spot float64, worst int) {
	worst = -1
	for i, r := range rows {
		if math.IsNaN(r.Blur) {
			continue
		}
		sec := r.Seconds + e.moved()/2 - later
		u := e.handFocus(sec, e.at(sec))
		s := math.Inf(1)
		if u > e.focal.Value {
			s = optics.Blur(e.focal.Value, e.stop(), e.pupils(), u, r.Focus+r.Drift) / e.pitch.Value
		}
		if worst < 0 || s > spot {
			spot, worst = s, i
		}
	}
	return spot, worst
}

// handWords adds to the verdict on focus what becomes of it where the hand is late or
// early: with that it will only just do, where it is sharp on time and not then.
func (e *eye) handWords(v *Verdict, rows []Row, limit float64) {
	if !e.byHand() {
		return
	}
	late, atLate := e.missedBy(rows, e.late())
	early, atEarly := e.missedBy(rows, -e.late())
	if atLate < 0 {
		return
	}
	v.figure("blur if late", late, "px")
	v.figure("blur if early", early, "px")
	v.Text += fmt.Sprintf("; with the pull %s s late %s px at frame %d, as much early %s px at frame %d", short(e.late()),
		short(late), rows[atLate].Frame, short(early), rows[atEarly].Frame)
	if worst := math.Max(late, early); v.Level == Good && worst > limit*(1+blurSlack) {
		v.Level, v.gauge = Fair, math.Max(v.gauge, worst)
		v.Text += ": sharp only with a hand on time"
		k := atLate
		if early > late {
			k = atEarly
		}
		v.When = e.moment(rows[k].Seconds)
	}
}

// Pulling is one way of the hand, and whether a hand can do it.
type Pulling struct {
	pull.Way
	Needs float64 // s that a hand takes for it by Fitts' law; 0 where that is not known
	Peak  float64 // greatest speed of the ring, degrees/s; NaN where that is not known
}

// focuses are the focus of each captured frame as it begins, or evenly of as many as rows
// are, for a whole loop.
func (e *eye) focuses() []float64 {
	n := int(min(e.motion.Captured(), maxRows))
	loop := e.shownUntil().Float()
	out := make([]float64, n)
	for i := range out {
		out[i] = e.at(loop * float64(i) / float64(n)).focus
	}
	return out
}

// pullings are the ways of the hand.
func (e *eye) pullings() []Pulling {
	if !e.byHand() || e.flat || !e.focal.Given {
		return nil
	}
	f, loop := e.focal.Value, e.shownUntil().Float()
	all := e.focuses()
	n := len(all)
	var out []Pulling
	for _, w := range pull.Ways(loop, all) {
		p := Pulling{Way: w, Peak: math.NaN()}
		if e.scene.Lens.Aperture.Given && e.pitch.Given {
			near, far := optics.Depth(f, e.stop(), e.pupils(), e.confusion(), w.Ends)
			if near > f {
				p.Needs = max(0, pull.Difficulty(f, w.Begins, w.Ends, near, far)) / e.bounds.HandBits
			}
		}
		if r := e.scene.Lens.Ring; r.Known() && r.Degrees {
			p.Peak = 0
			step := loop / float64(n)
			for i := int(math.Round(w.From / step)); i < int(math.Round(w.To/step)); i++ {
				a, _ := r.At(f, all[i%n])
				b, _ := r.At(f, all[(i+1)%n])
				p.Peak = math.Max(p.Peak, math.Abs(b-a)/step)
			}
		}
		out = append(out, p)
	}
	return out
}

// pullVerdict tells whether a hand can follow: whether it has the time for the hardest of
// its ways, and how fast the ring goes.
func (e *eye) pullVerdict() Verdict {
	const check, would = "pull by hand", "whether a hand can follow"
	if e.flat || !e.focal.Given {
		return unknown(check, would, "focal length, and distance")
	}
	ways := e.pullings()
	if len(ways) == 0 {
		return Verdict{Check: check, Level: Good, Text: "the focus stays where it is: there is nothing to pull"}
	}
	hard := 0 // the way that is shortest of its time
	for i, w := range ways {
		if w.Needs*ways[hard].Seconds() > ways[hard].Needs*w.Seconds() {
			hard = i
		}
	}
	w := ways[hard]
	if w.Needs == 0 && !e.scene.Lens.Aperture.Given {
		return unknown(check, would, "aperture")
	}
	v := Verdict{Check: check, Level: Good, When: e.moment(w.From)}
	v.figure("time for a pull", w.Seconds(), "s")
	v.figure("a hand needs", w.Needs, "s")
	v.gauge = w.Needs / w.Seconds()
	v.Text = fmt.Sprintf("from %s to %s in %s s of real time; a hand that stops where it is sharp takes about %s s (Fitts' law, %s bits a second): ",
		unit.Format(math.Round(w.Begins), unit.Length), unit.Format(math.Round(w.Ends), unit.Length), short(w.Seconds()), short(w.Needs), short(e.bounds.HandBits))
	peak := 0.0
	for _, x := range ways {
		if x.Peak > peak {
			peak = x.Peak
		}
	}
	if e.scene.Lens.Ring.Degrees && e.scene.Lens.Ring.Known() {
		v.figure("ring speed", peak, "deg/s")
	}
	switch {
	case w.Needs > w.Seconds()*(1+blurSlack):
		v.Level = Poor
		v.Text += "no hand follows"
		e.slower(&v, w.Needs/w.Seconds())
	case peak > e.bounds.RingSpeed*(1+blurSlack):
		v.Level = Fair
		v.gauge = peak / e.bounds.RingSpeed
		v.Text += fmt.Sprintf("the ring goes up to %s degrees a second, faster than a hand turns it evenly", short(peak))
		e.slower(&v, peak/e.bounds.RingSpeed)
	default:
		v.Text += "it can be followed"
	}
	return v
}

// slower tells what gives the hand so many times as long: a pull that takes as many more
// frames, or a picture that is slowed less.
func (e *eye) slower(v *Verdict, times float64) {
	retime := e.motion.Clock().Retime
	if less := nearestRetime(e.retime * times); e.retime < 1 && less.Float() > e.retime {
		v.advise("slowed less: a retime of %s in place of %s gives the hand %s times as long", less, retime, short(less.Float()/e.retime))
	}
	v.advise("a pull that takes %s times as long, in more frames of the loop", short(times))
}

// nearestRetime is the least retime 1/n, or a whole speed, of at least r.
func nearestRetime(r float64) exact.Rat {
	if r >= 1 {
		return exact.Int(int64(math.Ceil(r - blurSlack)))
	}
	return exact.New(1, int64(math.Floor(1/r+blurSlack)))
}
