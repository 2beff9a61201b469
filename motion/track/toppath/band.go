package toppath

import "math"

// band is a symmetric positive definite matrix over the nodes of a closed path in which
// each node meets the two on either side. Its rows are taken from both ends of the path
// by turns, so that the seam is inside and nothing is further than bandwidth from the
// diagonal.
type band struct {
	n    int
	at   []int                    // where a node's row is
	rows [][bandwidth + 1]float64 // each from the diagonal to the left
}

const bandwidth = 4

func newBand(n int) *band {
	b := &band{n: n, at: make([]int, n), rows: make([][bandwidth + 1]float64, n)}
	for i := range n {
		if i < (n+1)/2 {
			b.at[i] = 2 * i
		} else {
			b.at[i] = 2*(n-1-i) + 1
		}
	}
	return b
}

func (b *band) clear() { clear(b.rows) }

// add adds v to the elements of two nodes, once if they are one.
func (b *band) add(i, k int, v float64) {
	i, k = b.at[i], b.at[k]
	if i < k {
		i, k = k, i
	}
	b.rows[i][i-k] += v
}

// solve overwrites x, by node, with the solution, and the matrix with its factor
// (Cholesky). It tells whether the matrix was positive definite.
func (b *band) solve(x []float64) bool {
	y := make([]float64, b.n)
	for i, r := range b.at {
		y[r] = x[i]
	}
	for i := range b.n {
		row := &b.rows[i]
		for k := min(bandwidth, i); k >= 0; k-- {
			j := i - k
			sum := row[k]
			for m := max(0, i-bandwidth); m < j; m++ {
				if j-m <= bandwidth {
					sum -= row[i-m] * b.rows[j][j-m]
				}
			}
			if k > 0 {
				row[k] = sum / b.rows[j][0]
			} else if !(sum > 0) {
				return false
			} else {
				row[0] = math.Sqrt(sum)
			}
		}
		for k := 1; k <= min(bandwidth, i); k++ {
			y[i] -= row[k] * y[i-k]
		}
		y[i] /= row[0]
	}
	for i := b.n - 1; i >= 0; i-- {
		y[i] /= b.rows[i][0]
		for k := 1; k <= min(bandwidth, i); k++ {
			y[i-k] -= b.rows[i][k] * y[i]
		}
	}
	for i, r := range b.at {
		x[i] = y[r]
	}
	return true
}
