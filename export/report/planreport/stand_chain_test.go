package planreport_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/report"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

// anyStand is a shot with a stand, at the ends of what is allowed as well.
func anyStand(r *rapid.T) string {
	pick := func(name string, from ...string) string { return rapid.SampledFrom(from).Draw(r, name) }
	within := pick("within", "", "0.5 px", "0.0001 px", "99999 px", "0.1 deg", "720 deg", "3 mm", "0.05 captured frames")
	if within != "" {
		within = `within = "` + within + `"`
	}
	return fmt.Sprintf(`
[clock]
capture = %q
playback = "24"
loop = "%d frames"
between = ["1 frames", %q]
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "40000 mm/s"
acceleration = "30000000 mm/s2"
steps = "8 per mm"
[rig.stand.display]
direction = %q
%s
[rig.stand.display.speed.slow]
period = "%s s"
uncertainty = %q
[axis.rail]
from = "40 mm"
to = "41 mm"
[spin.display]
symmetry = %d
radius = "45 mm"
pixels-per-mm = %q
%s
`, pick("capture", "24", "119.88", "1/2", "1/3600"), rapid.Int64Range(1, 200).Draw(r, "frames"), pick("longest", "2 frames", "10 s"),
		pick("direction", "clockwise", "anticlockwise"), pick("drift", "", `drift = "0 %"`, `drift = "1 %"`, `drift = "10 %"`),
		exact.New(rapid.Int64Range(1, 8_640_000).Draw(r, "period"), 100).Decimal(2), pick("uncertainty", "0 s", "0.001 s", "0.009 s"),
		rapid.Int64Range(1, 1000).Draw(r, "symmetry"), pick("scale", "0.01", "12", "10000"), within)
}

// Whatever the stand, the report says the same as the verifier, in 80 columns,
// and reads back.
func TestAnyStandIsReported(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s, err := shot.Decode("t", []byte(anyStand(r)), nil)
		require.NoError(r, err)
		p, err := plan.Build(s, *s.Rig)
		require.NoError(r, err)
		tr := trajectory.New(p)
		v := verify.Check(tr)
		var text, doc bytes.Buffer
		require.NoError(r, report.Text(&text, judged(tr, v, planreport.Data{}).Report(), false))
		require.NoError(r, report.JSON(&doc, judged(tr, v, planreport.Data{}).Facts()))
		for line := range strings.Lines(text.String()) {
			assert.LessOrEqual(r, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), columns, line)
		}
		var back planreport.Document
		require.NoError(r, json.Unmarshal(doc.Bytes(), &back))
		require.Len(r, back.Stands, 1)
		seam := back.Stands[0].Seam
		refused := false
		for _, f := range v.Failed() {
			refused = refused || f.Check == "stand display, seam"
		}
		assert.Equal(r, refused, seam.Stated && !seam.Sure)
		assert.True(r, seam.Closes || !seam.Sure, "what closes for sure closes")
	})
}
