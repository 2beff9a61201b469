package against

import (
	"fmt"
	"math"
)

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
	if px <= max(Floor, may, Cover*l.standing()) {
		return Reason{}, false
	}
	at := max(0, l.seenAt(0))
	if times < 0 && -times*size > Cover*sure {
		return Reason{Cause: WrongWay, Frame: at, Px: px, Text: a.Name + " goes the other way than planned"}, true
	}
	return Reason{Cause: OtherTravel, Frame: at, Px: px,
		Text: fmt.Sprintf("%s shows %.1f %% of what it should: another travel, a wrong scale of its steps, or a product that stands nearer or farther", a.Name, 100*times)}, true
}
