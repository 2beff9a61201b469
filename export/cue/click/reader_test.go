package click_test

import (
	"encoding/binary"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample"
)

// soxVariable, set to anything, has the file read back by sox and soxi (Debian
// package sox), which must then be there.
const soxVariable = "SEAMRAIL_SOX"

func TestReaderSox(t *testing.T) {
	if os.Getenv(soxVariable) == "" {
		t.Skip("set " + soxVariable + " to read the click track back with sox")
	}
	take := sample.Cued(t, sample.TwoHands, 3)
	name := filepath.Join(t.TempDir(), "cues.wav")
	file := written(t, take)
	require.NoError(t, os.WriteFile(name, file, 0o600))
	ask := func(flag string) string {
		out, err := exec.Command("soxi", flag, name).Output()
		require.NoError(t, err)
		return strings.TrimSpace(string(out))
	}
	require.Equal(t, "48000", ask("-r"))
	require.Equal(t, "2", ask("-c"))
	require.Equal(t, "16", ask("-b"))
	require.Equal(t, "Signed Integer PCM", ask("-e"))
	raw, err := exec.Command("sox", name, "-t", "raw", "-e", "signed-integer", "-b", "16", "-L", "-").Output()
	require.NoError(t, err)
	for channel, hand := range []string{"left", "right"} {
		samples := make([]int16, len(raw)/4)
		for i := range samples {
			samples[i] = int16(binary.LittleEndian.Uint16(raw[4*i+2*channel:]))
		}
		require.Equal(t, side(t, file, channel), samples)
		want, _ := expected(take, hand)
		for i, o := range onsets(samples) {
			require.Equal(t, want[i], o.at)
		}
	}
}
