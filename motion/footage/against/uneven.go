package against

import (
	"fmt"
	"math"
	"slices"
)

const (
	// unevenQuantile is the share of frames that are asked how far off both beside them they are at the
	// most, and mostUneven by how many times more than the noise that may be, in the way in which it is
	// most: twice what chance that is normal comes to at that share, 2.49 of four (from memory: the
	// normal's two-sided quantile of the fourth root of 95 %). What is rendered and encoded well comes
	// to 4.2, films of a fiftieth of their bits to 7 and 12.
	unevenQuantile = 0.95
	mostUneven     = 5.0
	// plainly is by how many times more than such frames are off a cause must move the picture to be
	// told all the same: what is encoded badly wanders by up to five.
	plainly = 10.0
)

// uneven is how far off both beside them frames are, all but a few, once all that was found is
// explained: in units of the noise, and px. What a rig does is smooth or fades; a film of which an
// encoder has thrown away most stands, jumps and creeps, and looks like anything.
func (l *laid) uneven() (times, px float64) {
	var all, sizes []float64
	for i := 1; i+1 < l.n; i++ {
		if l.weights[i] == 0 || l.weights[i-1] == 0 || l.weights[i+1] == 0 {
			continue
		}
		var e effect
		worst := 0.0
		for k := range e {
			e[k] = l.r[k][i] - (l.r[k][i-1]+l.r[k][i+1])/2
			worst = max(worst, math.Abs(e[k])/(l.sigma[k]*l.rough[i]*math.Sqrt(1.5))) // as the noise of three is
		}
		all, sizes = append(all, worst), append(sizes, e.size())
	}
	if len(all) == 0 {
		return 0, 0
	}
	slices.Sort(all)
	slices.Sort(sizes)
	return all[int(unevenQuantile*float64(len(all)-1))], sizes[int(unevenQuantile*float64(len(sizes)-1))]
}

// unproved takes back causes that poses which scatter unevenly would have as well, and says so: all of
// them where nobody knows where the plan lies.
func (w *witness) unproved(v *Verdict, r *Result) {
	times, px := w.full.uneven()
	if times <= mostUneven {
		return
	}
	was := len(v.Causes)
	v.Causes = slices.DeleteFunc(v.Causes, func(c Reason) bool { return c.Px < plainly*px || !r.Frame0.Known })
	if len(v.Causes) < was {
		r.nothingSure(w)
	} else if px < Floor {
		return // frames that are off by so little hide nothing that would be told
	}
	v.Why = append(v.Why, fmt.Sprintf("frames scatter unevenly: one in twenty is off both beside it by %.2g px, %.0f times what most are: an encoding so coarse looks like any fault", px, times))
}
