package schedule

import "math"

// MaxExact is how many different set-ups are ordered exactly: time and memory
// double with each, and fifteen take some hundredths of a second.
const MaxExact = 15

// solve finds the least way through all set-ups from any to any, by dynamic
// programming over subsets (M. Held and R. M. Karp, J. SIAM 10:196-210, 1962,
// DOI 10.1137/0110015). left[m][k] is what the set-ups outside subset m still
// cost when k is the one in hand. It is worked out from full subsets down, so
// that the way can be read off forwards, the earliest set-up first where
// several cost the same.
func solve(t table) []int {
	n := len(t)
	if n == 0 {
		return nil
	}
	full := 1<<n - 1
	left := make([]int64, (full+1)*n)
	for m := full - 1; m > 0; m-- {
		for k := range n {
			if m>>k&1 == 1 {
				left[m*n+k], _ = onward(t, left, m, k)
			}
		}
	}
	best, at := int64(math.MaxInt64), 0
	for k := range n {
		if v := left[(1<<k)*n+k]; v < best {
			best, at = v, k
		}
	}
	way := []int{at}
	for m := 1 << at; m != full; m |= 1 << at {
		_, at = onward(t, left, m, at)
		way = append(way, at)
	}
	return way
}

// onward returns the least cost from set-up k with those of m done, and the
// earliest set-up that it goes to.
func onward(t table, left []int64, m, k int) (int64, int) {
	n := len(t)
	best, next := int64(math.MaxInt64), k
	for j := range n {
		if m>>j&1 == 1 {
			continue
		}
		if v := t[k][j] + left[(m|1<<j)*n+j]; v < best {
			best, next = v, j
		}
	}
	return best, next
}
