// Package list works on slices as the standard library's slices does, with what that
// leaves out.
package list

// Map returns f of each element, in order; nil where there is none.
func Map[T, U any](list []T, f func(T) U) []U {
	if len(list) == 0 {
		return nil
	}
	out := make([]U, len(list))
	for i, x := range list {
		out[i] = f(x)
	}
	return out
}

// Count returns how many elements something holds for.
func Count[T any](list []T, holds func(T) bool) int {
	n := 0
	for _, x := range list {
		if holds(x) {
			n++
		}
	}
	return n
}

// Sum adds up f of each element, in order.
func Sum[T any, N int | int64 | float64](list []T, f func(T) N) N {
	var sum N
	for _, x := range list {
		sum += f(x)
	}
	return sum
}
