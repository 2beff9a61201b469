package sweep

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

const (
	// grain is how finely, in s, it is looked when something moves.
	grain = 0.05
	// edge is how long, in s, before and after its beginning a mark is looked at: there
	// is silence before it, and it goes on longer.
	edge = 0.3
	// hush is how long, in s, it is silent before a mark at the least.
	hush = 1
	// around is how far, in s, from where all moves together have it a mark is looked for,
	// and fine how finely.
	around, fine = 0.6, 0.01
	// seen is how many times more than before it must move for a mark to be seen.
	seen = 3
	// calm is the share of a record that is silence at the least: some seconds of minutes.
	calm = 0.01
	// edgeSure is the standard uncertainty of when a mark begins, in s: it sets out
	// gently, and the host hears of it late by some hundredths.
	edgeSure = 0.03
	// oddClock is by what share a clock of a crystal is never out: ten times what the
	// cheapest are (common practice: 100 ppm).
	oddClock = 1e-3
)

// Clock is how the time of a record goes with that of a sweep: record = Offset + (1+Rate)
// sweep. RateSure is the standard uncertainty of Rate, 0 where marks at one end alone were
// seen, and Rate is then taken for nothing.
type Clock struct{ Offset, Rate, RateSure float64 }

// Of is a time of the record, of one of the sweep.
func (c Clock) Of(sweep float64) float64 { return c.Offset + (1+c.Rate)*sweep }

// back is a time of the sweep, of one of the record.
func (c Clock) back(record float64) float64 { return (record - c.Offset) / (1 + c.Rate) }

// stir is how much a record moves, grain by grain from its beginning, as logarithms, and
// their sums up to each.
type stir struct {
	first float64
	logs  []float64
	sums  []float64
	quiet float64 // below which it is noise
}

// stirred is how a record stirs about its median.
func stirred(times, values []float64) stir {
	rest := median(values)
	n := int((times[len(times)-1]-times[0])/grain) + 1
	squares, counts := make([]float64, n), make([]float64, n)
	for i, t := range times {
		k := int((t - times[0]) / grain)
		squares[k] += (values[i] - rest) * (values[i] - rest)
		counts[k]++
	}
	sizes := make([]float64, n)
	for k := range sizes {
		switch {
		case counts[k] > 0:
			sizes[k] = math.Sqrt(squares[k] / counts[k])
		case k > 0: // no sample fell into it
			sizes[k] = sizes[k-1]
		}
	}
	s := stir{first: times[0], sums: make([]float64, n+1)}
	sorted := slices.Sorted(slices.Values(sizes))
	s.quiet = max(stat.Quantile(calm, stat.Empirical, sorted, nil), sorted[n-1]*1e-3)
	for k, v := range sizes {
		s.logs = append(s.logs, math.Log(v+s.quiet))
		s.sums[k+1] = s.sums[k] + s.logs[k]
	}
	return s
}

// mean is that of the logarithms from a time to another, and whether the record has them.
func (s stir) mean(from, to float64) (float64, bool) {
	a, b := int(math.Round((from-s.first)/grain)), int(math.Round((to-s.first)/grain))
	if a < 0 || b > len(s.logs) || a >= b {
		return 0, false
	}
	return (s.sums[b] - s.sums[a]) / float64(b-a), true
}

// fits is how well marks suit the record, laid at an offset: by how much more it stirs, in
// all, as each begins than in the silence before it.
func (s stir) fits(marks []Span, offset float64) (sum float64) {
	for _, m := range marks {
		at := offset + m.From
		before, a := s.mean(at-hush, at-grain)
		begins, b := s.mean(at, at+edge)
		if a && b {
			sum += begins - before
		}
	}
	return sum
}

// align lays a record beside the sweep.
func (l Log) align(times, values []float64) (Clock, error) {
	s := stirred(times, values)
	last := max(l.Marks[len(l.Marks)-1].To, l.Bursts[len(l.Bursts)-1].To)
	best, at := math.Inf(-1), 0.0
	for o := s.first - last; o < times[len(times)-1]; o += grain {
		if f := s.fits(l.Marks, o); f > best {
			best, at = f, o
		}
	}
	var early, late []float64 // by how much marks are off where that has them
	for _, m := range l.Marks {
		off, ok := s.mark(times, values, at+m.From)
		switch {
		case !ok:
		case m.From < l.Bursts[0].From:
			early = append(early, off)
		default:
			late = append(late, off)
		}
	}
	c := Clock{Offset: at}
	switch {
	case len(early) == 0 && len(late) == 0:
		return c, errors.New("no mark of the sweep is seen in the record: neither the moves before it, with silence before each, nor those after it. Is it the record of this sweep, and was the phone fixed to what swings?")
	case len(early) == 0:
		c.Offset += median(late)
	case len(late) == 0:
		c.Offset += median(early)
	default:
		a, b := l.Marks[0].From, l.Marks[len(l.Marks)-1].From
		c.Rate, c.RateSure = (median(late)-median(early))/(b-a), edgeSure*math.Sqrt2/(b-a)
		c.Offset += median(early) - c.Rate*a
	}
	if math.Abs(c.Rate) > oddClock+2*c.RateSure {
		return c, fmt.Errorf("by its marks the clock of the record runs %.2g %% off that of the sweep, and no crystal does: was the record cut or changed?", 100*c.Rate)
	}
	return c, nil
}

// mark is by how much a mark begins later than at a time, and whether it is seen.
func (s stir) mark(times, values []float64, at float64) (off float64, ok bool) {
	if at-edge < times[0] || at+edge > times[len(times)-1] {
		return 0, false
	}
	rest, best := median(values), 0.0
	for d := -around; d <= around; d += fine {
		rise := s.size(times, values, rest, at+d, at+d+edge) / s.size(times, values, rest, at+d-edge, at+d)
		if rise > best {
			best, off = rise, d
		}
	}
	return off, best > seen
}

// size is how much a record moves between two times, noise and all.
func (s stir) size(times, values []float64, rest, from, to float64) float64 {
	a, _ := slices.BinarySearch(times, from)
	b, _ := slices.BinarySearch(times, to)
	sum := 0.0
	for _, v := range values[a:b] {
		sum += (v - rest) * (v - rest)
	}
	return math.Sqrt(sum/float64(max(b-a, 1))) + s.quiet
}

func median(x []float64) float64 {
	return stat.Quantile(0.5, stat.Empirical, slices.Sorted(slices.Values(x)), nil)
}
