package firmware_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/controller/firmware"
)

// BenchmarkPlay plays a take of 1056 lines, characters and all.
func BenchmarkPlay(b *testing.B) {
	t := &testing.T{}
	lines := rows(t, takes+"tb03.ngc")
	board := settings(t, takes+"tb03.settings")
	b.ReportAllocs()
	for b.Loop() {
		_, err := board.Play(program(lines), "XY", firmware.Counts{}, firmware.Link{Baud: 115200, Receive: 127}, firmware.Watch{})
		require.NoError(b, err)
	}
	b.ReportMetric(float64(len(lines))*float64(b.N)/b.Elapsed().Seconds(), "lines/s")
}
