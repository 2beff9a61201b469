package move

import (
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/track"
)

// Ways are what goes out by one law, rests, comes back by another and rests, one or
// more times a loop.
type Ways struct {
	From, To  unit.Quantity
	Out, Back law.Law
	Cycles    int       // times there and back in a loop, at least 1
	OutShare  exact.Rat // share of the moving time spent on the way out, in (0, 1)
	DwellFar  exact.Rat // s at To, each cycle
	DwellNear exact.Rat // s at From, each cycle
	Phase     exact.Rat // share of the loop, in [0, 1), that frame 0 is into it
}

// Cycle is the real seconds of one time there and back.
func (w Ways) Cycle(period exact.Rat) exact.Rat { return period.Quo(exact.Int(int64(w.Cycles))) }

// Moving is the real seconds of a cycle that are left to move in.
func (w Ways) Moving(period exact.Rat) exact.Rat {
	return w.Cycle(period).Sub(w.DwellFar).Sub(w.DwellNear)
}

// WayOut is the real seconds of one way out.
func (w Ways) WayOut(period exact.Rat) exact.Rat { return w.Moving(period).Mul(w.OutShare) }

// Travel is how far it is from one end to the other, in units.
func (w Ways) Travel() float64 { return math.Abs(w.To.Float() - w.From.Float()) }

// WithLaws returns them under other laws.
func (w Ways) WithLaws(out, back law.Law) Ways {
	w.Out, w.Back = out, back
	return w
}

// Retimed has dwells so many times as long.
func (w Ways) Retimed(times exact.Rat) Ways {
	w.DwellFar, w.DwellNear = w.DwellFar.Mul(times), w.DwellNear.Mul(times)
	return w
}

// stays are the times at one end, as track.ThereAndBack lays them out: out, rest,
// back, rest.
func (w Ways) stays(loop exact.Rat, near bool) []Stay {
	cycle := w.Cycle(loop)
	from, rest := w.WayOut(loop), w.DwellFar
	if near {
		from, rest = cycle.Sub(w.DwellNear), w.DwellNear
	}
	past := loop.Mul(w.Phase)
	stays := make([]Stay, w.Cycles)
	for i := range stays {
		t := cycle.Mul(exact.Int(int64(i))).Add(from).Sub(past).Quo(loop).Frac().Mul(loop)
		stays[i] = Stay{t, t.Add(rest)}
	}
	return stays
}

func (w Ways) spec() track.ThereAndBackSpec {
	return track.ThereAndBackSpec{
		From: w.From.Float(), To: w.To.Float(), Out: w.Out, Back: w.Back,
		Cycles: w.Cycles, OutShare: w.OutShare,
		DwellFar: w.DwellFar, DwellNear: w.DwellNear, Phase: w.Phase,
	}
}

func (w Ways) words(c clock.Clock) string {
	words := fmt.Sprintf("from %s to %s and back, %s", w.From, w.To, times(w.Cycles))
	words += ", by the " + w.Out.Name() + " law"
	if w.Back != nil && w.Back.Name() != w.Out.Name() {
		words += ", back by the " + w.Back.Name() + " law"
	}
	if w.OutShare.Sign() > 0 && !w.OutShare.Equal(half) {
		words += fmt.Sprintf("; the way out takes %s of the moving time", w.OutShare)
	}
	words += dwellWords("; waits %s on screen at the far end", w.DwellFar, c)
	words += dwellWords("; waits %s on screen at the near end", w.DwellNear, c)
	return words + phaseWords(w.Phase)
}

func phaseWords(phase exact.Rat) string {
	if phase.Sign() == 0 {
		return ""
	}
	return fmt.Sprintf("; frame 0 is %s of the loop into it", phase)
}

func dwellWords(format string, real exact.Rat, c clock.Clock) string {
	if real.Sign() == 0 {
		return ""
	}
	return fmt.Sprintf(format, seconds(real.Quo(c.Retime)))
}

// wayKeys are the keys of what comes back by itself.
type wayKeys struct {
	From         source.Text
	To           source.Text
	Law          source.Text
	BackLaw      source.Text
	Ramp         source.Text
	JerkShare    source.Text
	Least        source.Text
	Swings       source.Text
	SwingDamping source.Text
	Cycles       source.Text
	OutShare     source.Text
	DwellFar     source.Text
	DwellNear    source.Text
	Phase        source.Text
}

func (k wayKeys) laws(r *Reader) lawReader {
	return lawReader{
		Reader: r, law: k.Law, backLaw: k.BackLaw, ramp: k.Ramp, jerkShare: k.JerkShare,
		least: k.Least, swings: k.Swings, damping: k.SwingDamping, outShare: k.OutShare,
		usual: law.MinimumJerk(), why: "from rest to rest, smoothest",
	}
}

func (k wayKeys) read(r *Reader) Ways {
	from, ok := r.position(k.From, "from", "40 mm")
	to, ok2 := r.position(k.To, "to", "100 mm")
	if ok && ok2 {
		r.ends(from, to, k.To)
	}
	w := Ways{From: from, To: to}
	w.Out, w.Back = k.laws(r).both()
	w.Cycles = r.cycles(k.Cycles, "once there and back")
	w.OutShare = r.share(k.OutShare, "out-share", half, "as long back as out", inside, "above 0 and below 1")
	w.Phase = r.share(k.Phase, "phase", exact.Rat{}, "the first frame is where it sets out", wrapped, "from 0 to below 1")
	w.DwellFar = r.dwell(k.DwellFar, "dwell-far")
	w.DwellNear = r.dwell(k.DwellNear, "dwell-near")
	if r.Time.Known {
		k.timeToMove(r, w)
	}
	return w
}

// dwell reads a time that may be left out.
func (r *Reader) dwell(t source.Text, key string) exact.Rat {
	if !t.Set {
		r.Default(r.Path+key, "0 frames", "it turns round at once")
		return exact.Rat{}
	}
	d, _ := r.Time.Real(r.Report, t, r.Path+key)
	return d
}

// timeToMove checks that the dwells leave the carriage some of each cycle.
func (k wayKeys) timeToMove(r *Reader, w Ways) {
	cycle := w.Cycle(r.Time.Loop.Real())
	dwells := w.DwellFar.Add(w.DwellNear)
	if dwells.Less(cycle) {
		return
	}
	key, text := "dwell-far", k.DwellFar // the longer is to blame
	if w.DwellFar.Less(w.DwellNear) {
		key, text = "dwell-near", k.DwellNear
	}
	frames := r.Time.Frames(cycle).Decimal(2)
	bound := fmt.Sprintf("leaves no time to move: both dwells come to %s frames and a cycle has %s",
		r.Time.Frames(dwells).Decimal(2), frames)
	r.Add(text.Place(), r.Path+key, text.Quoted(), bound, "dwells of less than "+frames+" frames together would do")
}
