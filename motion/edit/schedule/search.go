package schedule

import "slices"

// maxStarts bounds the ways that are improved: with a hundred set-ups each
// takes some hundredths of a second.
const maxStarts = 16

// search looks for a good way through more set-ups than can be ordered exactly:
// from some of them to the nearest left, and then by turning round or moving a
// stretch of the way for as long as that saves anything (2-opt: G. A. Croes,
// Operations Research 6:791-812, 1958, DOI 10.1287/opre.6.6.791; or-opt: I. Or,
// thesis, Northwestern University 1976). The best of these is taken.
func search(t table) []int {
	var best []int
	var least int64
	starts := min(len(t), maxStarts)
	for k := range starts {
		way := nearest(t, k*len(t)/starts)
		for w := way; w != nil; w = improved(t, w) {
			way = w
		}
		if v := t.cost(way); best == nil || earlier(way, best, v, least) {
			best, least = way, v
		}
	}
	return best
}

// nearest goes from one set-up to the one that costs least of those left.
func nearest(t table, start int) []int {
	way := []int{start}
	done := make([]bool, len(t))
	done[start] = true
	for at := start; len(way) < len(t); {
		next := -1
		for j := range t {
			if !done[j] && (next < 0 || t[at][j] < t[at][next]) {
				next = j
			}
		}
		at = next
		done[at] = true
		way = append(way, at)
	}
	return way
}

// longestMoved bounds the stretches that are moved as a whole: or-opt's usual
// three.
const longestMoved = 3

// improved returns a way that costs less than this one, nil where no single
// move saves anything.
func improved(t table, way []int) []int {
	was := t.cost(way)
	for i := range way {
		for j := i + 1; j <= len(way); j++ {
			if w := turned(way, i, j); t.cost(w) < was {
				return w
			}
			if j-i > longestMoved {
				continue
			}
			for to := range len(way) - (j - i) + 1 {
				if w := moved(way, i, j, to); t.cost(w) < was {
					return w
				}
			}
		}
	}
	return nil
}

// turned is the way with its stretch from i up to j backwards.
func turned(way []int, i, j int) []int {
	w := slices.Clone(way)
	slices.Reverse(w[i:j])
	return w
}

// moved is the way with its stretch from i up to j put at another place of what
// is left.
func moved(way []int, i, j, to int) []int {
	stretch := slices.Clone(way[i:j])
	rest := slices.Delete(slices.Clone(way), i, j)
	return slices.Insert(rest, to, stretch...)
}
