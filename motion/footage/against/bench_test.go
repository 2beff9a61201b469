package against

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A take of three rounds, and a long one of a hundred.
func BenchmarkLay(b *testing.B) {
	for name, rounds := range map[string]int{"three rounds": 3, "a hundred rounds": 100} {
		p, k := fern()
		p.Rounds = rounds
		k.frames = 58 + rounds*144
		c := k.film(p)
		b.Run(name, func(b *testing.B) {
			for range b.N {
				r, err := Lay(c, p)
				require.NoError(b, err)
				require.Equal(b, IsPlan, r.Verdict.Kind, show(r))
			}
		})
	}
}
