package compare

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/motion/law"
)

func example() Data {
	return Data{
		Title: "Laws for one pass of the rail",
		Lines: []string{"60 mm in 0.5506 s, from rest to rest"},
		Unit:  "mm", Travel: 60, Seconds: 0.5506, Laws: law.All(),
		Speed: 400, Acc: 1500, Jerk: 60000,
	}
}

func TestScratch(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Draw(&b, "png", example(), Options{Jerk: true}))
	os.WriteFile("/tmp/h6-cmp.png", b.Bytes(), 0o644)
}
