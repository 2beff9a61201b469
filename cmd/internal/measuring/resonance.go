package measuring

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/source"
	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/spring"
	"seamrail/motion/vibration/sweep"
)

// Swept is what was read of a sweep, for a figure of it.
type Swept struct {
	Points []sweep.Point
	sweep.Modes
}

const (
	// clocks is the standard uncertainty of a frequency, as a share, by the clocks of the
	// board and the phone, each of which may be out by 100 ppm either way (common
	// practice: crystals; JCGM 100, 4.3.7).
	clocks = 100e-6 * math.Sqrt2 / 1.7320508
	// softens is the share by which a swing that dies away may be slower or faster than
	// one that is kept up: what is fixed with rubber gets softer as it swings farther
	// (common practice).
	softens = 0.02
	// lighter is the share of the damping that was expected below which the swings had
	// not built up.
	lighter = 0.75
	// astray is by how many times what it may be what was read may be off the model: with
	// some hundred points, chance has it at one and a tenth.
	astray = 3
	// The unit of a record is told by what it counts where the load goes with its foot,
	// to unitSlack either way.
	gravity, metre, unitSlack = 9806.65, 1000., 1.6
)

// resonances makes lines of a sweep and the record of it.
func (w *Walk) resonances(f *Found, l sweep.Log, record ringdown.Record) error {
	r, err := sweep.Read(l, record)
	if err != nil {
		f.doubt("%v", err)
		return nil
	}
	f.tell("record", "%.3g samples a second, %s; it began %s", r.Rate, clockWords(r.Clock), begunWords(r.Clock))
	if r.Aliased > 0 {
		f.tell("not told", "above %.3g Hz: with so few samples a faster swing looks like a slower one", r.Aliased)
	}
	m := sweep.Springs(r.Points, l.Damping)
	f.Swept = &Swept{r.Points, m}
	w.gain(f, m.Gain, l.Unit)
	w.edges(f, m, r.Points)
	if len(m.Modes) == 0 {
		f.tell("resonance", "none stands out from %.3g to %.3g Hz; no line is written", r.Points[0].Frequency, r.Points[len(r.Points)-1].Frequency)
		return nil
	}
	for i, x := range m.Modes {
		m.Modes[i].FrequencySure = math.Hypot(x.FrequencySure, clocks*x.Spring.Frequency)
		x = m.Modes[i]
		f.tell("resonance", "%s Hz, give or take %.2g (95 %%), damping %.3g %%, give or take %.2g: goes %.3g times as far as its foot",
			known(x.Spring.Frequency, x.FrequencySure), 2*x.FrequencySure, 100*x.Spring.Damping, 200*x.DampingSure, x.Top)
	}
	first := m.Modes[0]
	f.Value.Value, f.Value.Sigma = first.Spring.Frequency, first.FrequencySure
	f.tell("so", "by a model: damped springs on a shaken foot, pushed as a model of the board has it. What was read is off it by %.2g times what it may be", m.Scatter)
	if len(m.Modes) > 1 {
		f.tell("written", "the first, which goes farthest; a rig file has one spring an axis")
	}
	if first.Spring.Damping < lighter*l.Damping {
		f.doubt("the damping found, %.2g %%, is far less than the %.2g %% that was expected, for which the swings were given time to build up: sweep again with damping = %.2g %%", 100*first.Spring.Damping, 100*l.Damping, 100*first.Spring.Damping)
		return nil
	}
	if m.Scatter > astray {
		f.doubt("what was read is off what springs would have done by %.2g times what it may be: something else moved as well, or something is loose", m.Scatter)
		return nil
	}
	if w.second(f, l, r, record, m); len(f.Doubts) == 0 {
		w.lines(f, first.Spring, first.FrequencySure)
	}
	return nil
}

// second reads how the marks after a sweep rang down, which knows nothing of the fit.
func (w *Walk) second(f *Found, l sweep.Log, r sweep.Reading, record ringdown.Record, m sweep.Modes) {
	rung, err := rangDown(l, r, record)
	if err != nil {
		f.tell("ring-down", "after the sweep it could not be read (%v): the sweep stands alone", err)
		return
	}
	f.tell("ring-down", "after the sweep: %s Hz, give or take %.2g (95 %%), damping %.3g %%", known(rung.Spring.Frequency, rung.FrequencySure), 2*rung.FrequencySure, 100*rung.Spring.Damping)
	for _, x := range m.Modes {
		off := math.Abs(x.Spring.Frequency - rung.Spring.Frequency)
		if off <= 2*math.Hypot(x.FrequencySure, rung.FrequencySure)+softens*x.Spring.Frequency {
			return
		}
	}
	f.doubt("the swing that rang down after the sweep, %.4g Hz, is none of the resonances that the sweep shows: one of the two is not what it seems", rung.Spring.Frequency)
}

// rangDown is the best told of the swings that the marks after a sweep left.
func rangDown(l sweep.Log, r sweep.Reading, record ringdown.Record) (best ringdown.Measured, err error) {
	err = errors.New("nothing was let ring")
	found := false
	for i, m := range l.Marks {
		if m.From < l.Bursts[len(l.Bursts)-1].To {
			continue
		}
		until := math.Inf(1)
		if i+1 < len(l.Marks) {
			until = r.Clock.Of(l.Marks[i+1].From)
		}
		x, now := ringdown.FromRecord(within(record, r.Clock.Of(m.To), until), r.Column)
		switch {
		case now != nil && !found:
			err = now
		case now == nil && (!found || x.FrequencySure < best.FrequencySure):
			best, err, found = x, nil, true
		}
	}
	return best, err
}

// within is a record from a time to another.
func within(r ringdown.Record, from, to float64) ringdown.Record {
	a, _ := slices.BinarySearch(r.Times, from)
	b, _ := slices.BinarySearch(r.Times, to)
	out := ringdown.Record{Times: r.Times[a:b], Names: r.Names}
	for _, s := range r.Series {
		out.Series = append(out.Series, s[a:b])
	}
	return out
}

// gain tells what the record counts, by what it has where the load goes with its foot.
func (w *Walk) gain(f *Found, gain float64, u string) {
	if u != "mm" {
		f.tell("its unit", "where nothing swings it has %.3g to each %s/s2, by how far from the middle the phone rides", gain, u)
		return
	}
	units := []struct {
		name string
		one  float64
	}{{"mm/s2", 1}, {"m/s2", 1 / metre}, {"g", 1 / gravity}}
	for _, k := range units {
		if ratio := gain / k.one; ratio < unitSlack && ratio > 1/unitSlack {
			f.tell("its unit", "%s: where nothing swings it has %.2f of how the foot goes", k.name, ratio)
			return
		}
	}
	f.doubt("where nothing swings the record has %.3g of how the foot goes in mm/s2, which is none of the units that phones count in: was the phone fixed to what swings, and does it record acceleration?", gain)
}

// edges tells where the response rises to an end of the band.
func (w *Walk) edges(f *Found, m sweep.Modes, points []sweep.Point) {
	const words = "the response still rises towards %.3g Hz, the end of the band: whether it swings there only a sweep further %s would tell"
	if m.RisesDown {
		f.tell("at the edge", words, points[0].Frequency, "down")
	}
	if m.RisesUp {
		f.tell("at the edge", words, points[len(points)-1].Frequency, "up")
	}
}

func clockWords(c sweep.Clock) string {
	if c.RateSure == 0 {
		return "its clock taken as right, since marks at one end alone are seen"
	}
	return fmt.Sprintf("its clock %+.0f ppm, give or take %.0f", 1e6*c.Rate, 2e6*c.RateSure)
}

func begunWords(c sweep.Clock) string {
	if c.Offset < 0 {
		return fmt.Sprintf("%.2f s after the sweep's own clock", -c.Offset)
	}
	return fmt.Sprintf("%.2f s before the sweep's own clock", c.Offset)
}

// lines are those of the rig file for how the axis swings.
func (w *Walk) lines(f *Found, s spring.Spring, sure float64) {
	for _, l := range [][2]string{
		{"frequency", known(s.Frequency, sure) + " Hz"}, {"damping", fmt.Sprintf("%.3g %%", 100*s.Damping)},
		{"uncertainty", known(sure, sure) + " Hz"},
	} {
		path := w.path("shake." + l[0])
		old, _ := source.Value(w.data, path)
		switch _, err := source.Set(w.File, w.data, path, l[1]); {
		case l[0] == "uncertainty" && sure == 0:
		case err != nil: // the table stands on one line, which has no such key
			f.tell("by hand", "write %s = %q into the braces of shake", l[0], l[1])
		default:
			f.line(path, old, l[1])
		}
	}
}
