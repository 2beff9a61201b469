package figure

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestScratch(t *testing.T) {
	var b bytes.Buffer
	for _, f := range []string{"png", "svg", "pdf"} {
		b.Reset()
		require.NoError(t, Draw(&b, f, lantern(), Options{}))
		os.WriteFile("/tmp/h6-fig."+f, b.Bytes(), 0o644)
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, f := range []string{"png", "svg", "pdf"} {
		b.Run(f, func(b *testing.B) {
			for b.Loop() {
				var w bytes.Buffer
				Draw(&w, f, lantern(), Options{})
			}
		})
	}
}
