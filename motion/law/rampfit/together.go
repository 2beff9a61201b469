package rampfit

import (
	"cmp"
	"math"
	"slices"

	"seamrail/motion/base/list"
)

// Together is what several takes say of the ramp: whether it lasts as long in each way, or
// takes as large a share of it.
type Together struct {
	Law                  string   // the likeliest of those that fit every take; "" where none does
	Fits                 []Fit    // it, laid through each take; where none fits, the best of each
	Others               []string // that fit every take too and are not much less likely, likeliest first
	Seconds, Share, Jerk Mean
	TimeHolds, ShareDoes bool
}

// Mean is the weighted mean of what takes say, and by how many of their own uncertainties
// they lie about it (R. T. Birge, Physical Review 40:207-227, 1932, DOI
// 10.1103/PhysRev.40.207).
type Mean struct{ Value, Sure, Ratio float64 }

const (
	// holds is up to which ratio takes agree: two that do lie further apart once in eighty.
	holds = 2.5
	// told is how far scores are apart where the readings tell two laws from each other:
	// "very strong" evidence (R. E. Kass and A. E. Raftery, J. American Statistical
	// Association 90:773-795, 1995, DOI 10.1080/01621459.1995.10476572, section 3.2).
	told = 10
)

// Compare joins some takes.
func Compare(all []Found) Together {
	out := Together{Fits: list.Map(all, func(f Found) Fit { return f.Best })}
	laws := common(all)
	if len(laws) == 0 {
		return out
	}
	out.Law, out.Fits = laws[0].name, laws[0].fits
	for _, l := range laws[1:] {
		if l.score-laws[0].score < told {
			out.Others = append(out.Others, l.name)
		}
	}
	out.Seconds = mean(out.Fits, func(f Fit) (v, sure float64) { return f.Seconds, f.SecondsSure })
	out.Share = mean(out.Fits, func(f Fit) (v, sure float64) { return f.Ramp, f.RampSure })
	out.Jerk = mean(out.Fits, func(f Fit) (v, sure float64) { return f.JerkShare, f.JerkSure })
	out.TimeHolds, out.ShareDoes = out.Seconds.Ratio <= holds, out.Share.Ratio <= holds
	return out
}

// shared is a law that fits every take.
type shared struct {
	name  string
	fits  []Fit
	score float64
	stuck bool // in some
}

// common are the laws that fit every take, likeliest first.
func common(all []Found) (out []shared) {
	for _, first := range all[0].All {
		l := shared{name: first.Law}
		for _, f := range all {
			i := slices.IndexFunc(f.All, func(x Fit) bool { return x.Law == l.name && x.Fits })
			if i < 0 {
				break
			}
			l.fits, l.score, l.stuck = append(l.fits, f.All[i]), l.score+f.All[i].score, l.stuck || f.All[i].stuck
		}
		if len(l.fits) == len(all) {
			out = append(out, l)
		}
	}
	slices.SortStableFunc(out, func(a, b shared) int {
		return cmp.Or(worse(a.stuck, b.stuck), cmp.Compare(a.score, b.score))
	})
	return out
}

// mean is the weighted mean of those takes that tell; where none does, the plain one.
func mean(fits []Fit, of func(Fit) (v, sure float64)) (m Mean) {
	var w, sum, plain float64
	for _, f := range fits {
		v, sure := of(f)
		plain += v / float64(len(fits))
		if sure > 0 {
			w, sum = w+1/(sure*sure), sum+v/(sure*sure)
		}
	}
	if w == 0 {
		return Mean{Value: plain}
	}
	m.Value, m.Sure = sum/w, math.Sqrt(1/w)
	free := -1.0
	for _, f := range fits {
		if v, sure := of(f); sure > 0 {
			m.Ratio, free = m.Ratio+math.Pow((v-m.Value)/sure, 2), free+1
		}
	}
	if free > 0 {
		m.Ratio = math.Sqrt(m.Ratio / free)
		m.Sure *= math.Max(1, m.Ratio)
	}
	return m
}
