package laid

import (
	"math"

	"seamrail/export/report/footagereport"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/pace"
)

// ZeroOf is where frame 0 is, by what tells it best.
func ZeroOf(d footagereport.Data) (at, sure float64, by filmed.By) {
	if z := d.Plan.Frame0; z.Known {
		return z.Value + float64(d.First), z.Sure, filmed.ByPicture
	}
	if d.Pace != nil && d.Pace.Verdict.Kind == pace.ByTimes && d.Pace.Frame0.Known {
		return d.Pace.Frame0.Value + float64(d.First), d.Pace.Frame0.Sure, filmed.ByTimes
	}
	return 0, 0, filmed.Nothing
}

// Runs tells how each round went, as far as the film shows.
func Runs(d footagereport.Data) func(round int64) filmed.Run {
	late, longer := map[int64]float64{}, map[int64]float64{}
	for _, r := range d.Plan.Rounds {
		if r.Known && told(r.Late) { // its end is the beginning of the next
			late[int64(r.Index)+1] = r.Late.Value
		}
		if r.Known && told(r.Longer) {
			longer[int64(r.Index)] = r.Longer.Value
		}
	}
	if zero := d.Plan.Frame0; !zero.Known && d.Pace != nil {
		for _, r := range d.Pace.Rounds {
			if r.Known {
				late[int64(r.Index)] = r.Late.Value
			}
		}
	}
	return func(round int64) filmed.Run { return filmed.Run{Late: late[round], Longer: longer[round]} }
}

// told tells that a number is beyond what it may be out by, two standard uncertainties: what is not
// is taken as planned.
func told(n against.Number) bool {
	return math.Abs(n.Value) > 2*n.Sure
}
