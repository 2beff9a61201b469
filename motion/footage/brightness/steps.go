package brightness

import (
	"cmp"
	"math"
	"slices"
)

const (
	// lasting is how many seconds a step must last to be one of the exposure.
	lasting = 0.5
	// leastStep is what a lasting change is at least: a fiftieth of a stop, 1.4 % of light,
	// is below what two pictures side by side show.
	leastStep = 0.02
	// surest is how many times its uncertainty a step must be: chance alone makes one of six in a
	// billion frames.
	surest = 6
	// leastSide is how many frames each side has at least: medians of four bear with a flash.
	leastSide = 8
	// suddenly is in how many frames suddenShare of a step happens, and no more than one over
	// that share: a flash is more for a while.
	suddenly, suddenShare = 3, 0.6
	// normal is the standard deviation of normal noise whose middle absolute value is 1, and
	// medianLoss by how much a median of it scatters more than a mean (both of the normal
	// distribution: 1/0.6745, root of pi/2).
	normal, medianLoss = 1.4826, 1.2533
	// clipped is how many times the middle difference of neighbours one counts at most where
	// flicker is looked for in them: that of a sine is at most 1.42 times its middle one.
	clipped = 4
)

// steps are sudden changes that last, by which both sides of a frame, led on to it, are apart: a
// picture that moves has its brightness go up and down too, and that leads on. Where it does so
// quickly only sides that are short lead on, and where there is grain only long ones tell.
func steps(stops []float64, rate float64) []Step {
	n := len(stops)
	long := min(n/4, max(4, int(math.Round(lasting*rate))))
	level := unflickered(stops)
	noise := frameNoise(level)
	var all []Step
	for w := shortest(long); w <= long; w *= 2 {
		for _, s := range stepsBy(level, w, noise) {
			if !slices.ContainsFunc(all, func(o Step) bool { return max(o.Frame-s.Frame, s.Frame-o.Frame) < w }) {
				all = append(all, s)
			}
		}
	}
	slices.SortFunc(all, func(a, b Step) int { return cmp.Compare(a.Frame, b.Frame) })
	return slices.DeleteFunc(slices.Clone(all), func(s Step) bool { return comesBack(all, s, long) })
}

// shortest is the least that doubled some times gives what is about as long, and no more.
func shortest(long int) int {
	for long >= 2*leastSide {
		long /= 2
	}
	return long
}

// stepsBy are steps by sides of so many frames.
func stepsBy(level []float64, w int, noise float64) (out []Step) {
	n := len(level)
	doubt := medianLoss * noise * math.Sqrt(10/float64(w)) // of four medians of w/2: see sides.apart
	bar, suddenBar := max(leastStep, surest*doubt), surest*medianLoss*noise*math.Sqrt(2.0/suddenly)
	apart := make([]float64, n)
	for k := w; k+w <= n; k++ {
		apart[k] = sidesOf(level, k, w).apart()
	}
	for k := w; k+w <= n; k++ {
		if math.Abs(apart[k]) < bar || !greatest(apart[k-w:min(n, k+w)], w) {
			continue
		}
		// Medians are as great some frames beside a step as at it.
		at := sharpest(level, k, w/2, apart[k])
		s := sidesOf(level, at, min(w, at, n-at))
		size := s.apart()
		sudden := between(level, at, suddenly) - suddenly*s.slope()
		if share := sudden / size; math.Abs(size) >= bar && math.Abs(sudden) >= suddenBar && share >= suddenShare && share <= 1/suddenShare {
			out = append(out, Step{at, size, doubt})
		}
	}
	return out
}

// comesBack tells whether a step goes back at once before it has lasted, or is itself what goes back.
func comesBack(all []Step, s Step, long int) bool {
	return slices.ContainsFunc(all, func(o Step) bool {
		return o.Frame != s.Frame && max(o.Frame-s.Frame, s.Frame-o.Frame) < long && -o.Stops/s.Stops >= suddenShare
	})
}

// sides are the medians of four windows of half frames each, two before a frame and two from it
// on, which neither grain nor a flash moves much.
type sides struct {
	half float64
	m    [4]float64
}

func sidesOf(level []float64, k, w int) sides {
	h := max(w/2, 1)
	s := sides{half: float64(h)}
	for i := range s.m {
		from := k + (i-2)*h
		s.m[i] = median(slices.Clone(level[max(from, 0):min(from+h, len(level))]))
	}
	return s
}

// apart is by how much what the windows behind lead back to is above what those before lead on to,
// each by a line through both: 1.5 of the nearer less 0.5 of the farther. Of four medians with a
// variance v each it has 5 v.
func (s sides) apart() float64 { return 1.5*(s.m[2]-s.m[1]) - 0.5*(s.m[3]-s.m[0]) }

// slope is how fast both sides go, a frame.
func (s sides) slope() float64 { return (s.m[1] - s.m[0] + s.m[3] - s.m[2]) / (2 * s.half) }

// unflickered is a series without the flicker that its differences show: in these a step is one
// frame, which counts for no more than a few of them do, and a drift is nearly nothing.
func unflickered(stops []float64) []float64 {
	d := make([]float64, len(stops))
	var sizes []float64
	for k := 1; k < len(d); k++ {
		d[k] = stops[k] - stops[k-1]
		sizes = append(sizes, math.Abs(d[k]))
	}
	most := clipped * median(sizes)
	few := make([]float64, len(d))
	for k, v := range d {
		few[k] = min(max(v, -most), most)
	}
	tones := findTones(few, tunedToTake)
	out := slices.Clone(stops)
	if len(tones) == 0 {
		return out
	}
	m := fit(few, tones)
	flat := fit(few, nil) // the line that both have stays
	for k := 1; k < len(out); k++ {
		out[k] = out[k-1] + d[k] - (flat.rest[k] - m.rest[k])
	}
	return out
}

// between is how much brighter the w frames from k on are than the w before.
func between(stops []float64, k, w int) float64 {
	w = min(w, k, len(stops)-k)
	return median(slices.Clone(stops[k:k+w])) - median(slices.Clone(stops[k-w:k]))
}

// median sorts the values; of none it is 0.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return (v[len(v)/2] + v[(len(v)-1)/2]) / 2
}

// greatest tells whether none is greater in size, and none before as great.
func greatest(change []float64, at int) bool {
	for k, v := range change {
		if math.Abs(v) > math.Abs(change[at]) || k < at && math.Abs(v) == math.Abs(change[at]) {
			return false
		}
	}
	return true
}

// sharpest is the frame near k that differs most from the one before in the way of the step.
func sharpest(stops []float64, k, near int, step float64) int {
	best := k
	for i := max(1, k-near); i <= min(len(stops)-1, k+near); i++ {
		if (stops[i]-stops[i-1])*step > (stops[best]-stops[best-1])*step {
			best = i
		}
	}
	return best
}

// frameNoise is how much a frame scatters, from the middle difference of neighbours.
func frameNoise(stops []float64) float64 {
	d := make([]float64, len(stops)-1)
	for k := range d {
		d[k] = math.Abs(stops[k+1] - stops[k])
	}
	return normal * median(d) / math.Sqrt2
}

// without takes the steps out.
func without(stops []float64, all []Step) {
	for _, s := range all {
		for k := s.Frame; k < len(stops); k++ {
			stops[k] -= s.Stops
		}
	}
}
