package against

import (
	"math"
	"slices"

	"seamrail/motion/base/root"
)

// Where nobody says in which measure the picture moves along an axis that makes it grow, it is taken
// to be that of a lens that goes in on a plane: grown by -D ln(1 - x/D) as the logarithm has it, where
// D is how far the plane is from the lens with the axis in the middle of its travel. D is fitted.
const (
	// mostlyGrows is the share of what an axis does, in px, that growth must be.
	mostlyGrows = 0.7
	// nearest is the share of D that half the travel may be at the most: at half of it the product
	// is three times as large at the end as at the beginning.
	nearest = 0.5
	// tried is how many of them are tried before the best is bettered.
	tried = 8
	// betters is by how many cuts the best is bettered: to a hundred-thousandth.
	betters = 20
	// worthNear is by what share D must make less what is left over: what is left over of a hundred
	// frames scatters by half of that.
	worthNear = 0.1
)

// near is an axis laid in the measure of a lens that goes in: half its travel over D, below 0 where
// it goes out.
func (t track) near(axis int, share float64) track {
	half, middle, at := t.travel[axis]/2, t.middle[axis], t.Axes[axis].At
	p := t.Plan
	p.Axes = slices.Clone(p.Axes)
	p.Axes[axis].Seen = func(seconds float64) float64 {
		return middle - half/share*math.Log1p(-share*(at(seconds)-middle)/half)
	}
	return newTrack(p)
}

// nearer is a take laid with the distance fitted along axes that make the picture grow, where nobody
// has said in which measure they do and that tells more than squares of positions.
func (l *laid) nearer() *laid {
	for a, axis := range l.Axes {
		if e, _ := l.effect(a); axis.Seen == nil && l.Bends && l.travel[a] > 0 && math.Abs(e[grown]) > mostlyGrows*e.size() {
			l = l.nearerAlong(a)
		}
	}
	return l
}

// misfit is how badly a take lies: the logarithm of what it leaves over, by way, times how many frames
// tell it, as a likelihood of which the noise is not known has it.
func (l *laid) misfit() (sum float64) {
	for _, s := range l.scales() {
		sum += float64(l.count()) * math.Log(s)
	}
	return sum
}

func (l *laid) nearerAlong(axis int) *laid {
	at := func(share float64) *laid {
		if share == 0 {
			return l
		}
		c := newLaid(l.track.near(axis, share), l.series, place{frame: l.warps[0].late})
		c.robust()
		return c
	}
	best, least := 0.0, l.misfit()
	const step = 2 * nearest / tried
	for k := -tried / 2; k <= tried/2; k++ {
		if m := at(float64(k) * step).misfit(); m < least {
			best, least = float64(k)*step, m
		}
	}
	best = root.Golden(max(best-step, -nearest), min(best+step, nearest), betters, 0, func(share float64) float64 { return -at(share).misfit() })
	out := at(best)
	if out.misfit() > l.misfit()-worthNear*float64(l.count()) {
		return l
	}
	out.fitted = append(slices.Clone(l.fitted), axis)
	// As far beside the best as half a unit of a likelihood, one standard uncertainty, frame 0 goes
	// by so much.
	for d := step / 4096; d < step; d *= 2 {
		if c := at(best + d); c.misfit() > out.misfit()+0.5 {
			out.bent = math.Hypot(l.bent, math.Abs(c.warps[0].late-out.warps[0].late))
			break
		}
	}
	return out
}
