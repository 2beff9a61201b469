package align

import (
	"math"
	"slices"
)

const (
	// samples are of how many frames a landmark's blocks are asked what they lie on.
	samples = 32
	// mostly is the share of those frames in which a block must lie as near as is said of it: a hand
	// may cover it in the others. threeQuarters is how far off, in standard deviations each way, that
	// share of normal errors lies (the root of 2 ln 4, as two of them squared are exponential).
	mostly, threeQuarters = 0.75, 1.6651
	// loosely is how many times as far as by chance a block may lie off. What lies a little nearer or
	// farther goes a little further, in all frames as much: that spoils nothing while it weighs the
	// same, and what an encoder or grain does to few blocks spoils more.
	loosely = 2
	// usual is how many times as far off as the middle block one may be by its grain alone.
	usual = 1.5
	// seldom is the share of the frames in which a block was found that was found most below which
	// nothing is known of another.
	seldom = 0.2
	// judged are rounds of who is trusted; they settle in two.
	judged = 3
)

// trusted is what each of a landmark's blocks weighs: what lies on the one thing that most blocks
// lie on in all frames that were laid on it. In a single frame near and far may lie within each
// other's reach, or now the one and now the other have more blocks that were found.
//
// Where enough of them are known to lie on what the take is followed by, the others do where they go
// as these do: a landmark that few frames lie on shows no depths.
func trusted(all []look, known []bool) []trust {
	frames, count, heirs := sampled(all), len(known), 0
	for _, k := range known {
		if k {
			heirs++
		}
	}
	lists, asked := make([][]moved, len(frames)), make([][]moved, len(frames))
	for f, l := range frames {
		lists[f] = l.list()
		asked[f] = lists[f]
		if heirs >= fewest {
			asked[f] = slices.DeleteFunc(slices.Clone(lists[f]), func(m moved) bool { return !known[m.n] })
		}
	}
	fits := agreedAll(asked, count)
	near := make([]float64, count) // pixels
	for n, far := range farOff(lists, fits, count, off) {
		near[n] = far
	}
	faith := make([]trust, count)
	for n := range faith {
		if near[n] < together {
			faith[n] = trust{1, 1}
		}
	}
	for range judged {
		for f, list := range lists {
			p, agree, _ := settled(list, fits[f], faith)
			if agree >= fewest {
				a, b := p.Scale*math.Cos(p.Turn*math.Pi/180)-1, p.Scale*math.Sin(p.Turn*math.Pi/180)
				fits[f] = linear{p.X, p.Y, a, b}
			}
		}
		far := farOff(lists, fits, count, misfit)
		var members []float64
		for n, k := range faith {
			if k.weight > 0 {
				members = append(members, far[n])
			}
		}
		middle := math.Max(middleOf(members), threeQuarters*unseen/own)
		for n := range faith {
			times := far[n] / middle
			faith[n] = trust{bisquare(times / (loosely * tukey / threeQuarters)), math.Max(times/usual, 1)}
		}
	}
	return faith
}

// sampled are some frames of those that were laid on a landmark: half of them evenly in time, and
// half evenly by how far the picture went, as where it rests nothing parts.
func sampled(all []look) []look {
	if len(all) <= samples {
		return all
	}
	small := all[0].mark.picture.levels[levels-1]
	width, height := small.Width*coarse, small.Height*coarse
	way := make([]float64, len(all))
	for n := 1; n < len(all); n++ {
		way[n] = way[n-1] + apartness(all[n].base.After(all[n-1].base.Inverse()), width, height)
	}
	length := math.Max(way[len(way)-1], 1e-9)
	var out []look
	for n, l := range all {
		at := (float64(n)/float64(len(all)-1) + way[n]/length) / 2
		if float64(len(out)) <= at*(samples-1) {
			out = append(out, l)
		}
	}
	return out
}

// agreedAll is for each frame what two of the blocks say of it on which most agree in all frames
// together, all pairs tried, as agreed has it of one. Where a pair was not found nothing agrees.
func agreedAll(lists [][]moved, count int) []linear {
	where := make([][]int, len(lists)) // of each block in each list, one more; 0 where it is not
	for f, list := range lists {
		where[f] = make([]int, count)
		for i, m := range list {
			where[f][m.n] = i + 1
		}
	}
	var best []linear
	least := math.Inf(1)
	fits := make([]linear, len(lists))
	for one := range count {
		for two := range one + 1 { // itself: a shift alone
			sum := 0.0
			for f, list := range lists {
				fits[f] = linear{}
				i, k := where[f][one], where[f][two]
				ok := i > 0 && k > 0
				if ok {
					fits[f], ok = said(list[i-1], list[k-1])
				}
				if !ok {
					sum += together * together * float64(len(list))
				} else {
					sum += misses(list, fits[f])
				}
				if sum >= least {
					break
				}
			}
			if sum < least {
				best, least = slices.Clone(fits), sum
			}
		}
	}
	return best
}

// farOff is how far off each block lies in mostly all frames in which it was found; without end
// where it seldom was.
func farOff(lists [][]moved, fits []linear, count int, by func(linear, moved) float64) []float64 {
	each := make([][]float64, count)
	for f, list := range lists {
		for _, m := range list {
			each[m.n] = append(each[m.n], by(fits[f], m))
		}
	}
	times := 0
	for _, v := range each {
		times = max(times, len(v))
	}
	out := make([]float64, count)
	for n, v := range each {
		out[n] = math.Inf(1)
		if len(v) > 0 && float64(len(v)) >= seldom*float64(times) {
			slices.Sort(v)
			out[n] = v[int(mostly*float64(len(v)-1)+0.5)]
		}
	}
	return out
}
