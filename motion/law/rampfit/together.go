package rampfit

import "math"

// Together is what several takes say of the ramp: whether it lasts as long in each way, or
// takes as large a share of it.
type Together struct {
	Law                  string // that of all; "" where they differ
	Seconds, Share       Mean
	TimeHolds, ShareDoes bool
}

// Mean is the weighted mean of what takes say, and by how many of their own uncertainties
// they lie about it (R. T. Birge, Physical Review 40:207-227, 1932, DOI
// 10.1103/PhysRev.40.207).
type Mean struct{ Value, Sure, Ratio float64 }

// holds is up to which ratio takes agree.
const holds = 2.5

// Compare joins the best of some takes.
func Compare(all []Found) Together {
	out := Together{Law: all[0].Best.Law}
	var seconds, shares, sures, shareSures []float64
	for _, f := range all {
		if f.Best.Law != out.Law {
			return Together{}
		}
		seconds, sures = append(seconds, f.Best.Seconds), append(sures, f.Best.SecondsSure)
		shares, shareSures = append(shares, f.Best.Ramp), append(shareSures, f.Best.RampSure)
	}
	out.Seconds, out.Share = mean(seconds, sures), mean(shares, shareSures)
	out.TimeHolds, out.ShareDoes = out.Seconds.Ratio <= holds, out.Share.Ratio <= holds
	return out
}

func mean(values, sures []float64) Mean {
	var w, sum float64
	for i, v := range values {
		weight := 1 / math.Max(sures[i]*sures[i], math.SmallestNonzeroFloat64)
		w, sum = w+weight, sum+weight*v
	}
	m := Mean{Value: sum / w, Sure: math.Sqrt(1 / w)}
	for i, v := range values {
		d := (v - m.Value) / math.Max(sures[i], math.SmallestNonzeroFloat64)
		m.Ratio += d * d
	}
	if free := len(values) - 1; free > 0 {
		m.Ratio = math.Sqrt(m.Ratio / float64(free))
		m.Sure *= math.Max(1, m.Ratio)
	} else {
		m.Ratio = 0
	}
	return m
}
