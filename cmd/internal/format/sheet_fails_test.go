package format

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/job"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/judge"
)

// A sheet keeps nothing back: whatever does not hold or is not known of a shot is in a
// line of it, and where there is no line everything holds.
func TestASheetKeepsNothingBack(t *testing.T) {
	names, err := filepath.Glob(filepath.Join("..", "..", "..", "plot", "topview", "testdata", "shots", "*.toml"))
	require.NoError(t, err)
	names = append(names, "")
	told := 0
	for _, name := range names {
		j, err := job.Source{Shot: name}.Job(nil)
		if err != nil {
			continue // a rig, which is there for the shots
		}
		page := Sheet(j)
		said := strings.Join(append(page.Fails, page.Facts[0]), "\n")
		holds := j.Unable() == nil
		assert.Equal(t, !holds, strings.Contains(said, "DO NOT RUN THIS"), name)
		for _, s := range j.Plan.Stands {
			assert.True(t, s.Seam.Certain() || strings.Contains(said, s.Rig.Name), "%s: stand %s", name, s.Rig.Name)
		}
		require.NotNil(t, j.Picture)
		for _, v := range j.Others {
			if v.Level == picture.Unknown {
				holds = false
				assert.Contains(t, said, v.Check, name)
			}
		}
		for _, v := range slices.Concat(j.Picture.Verdicts, failing(j.Others)) {
			bad := v.Level != picture.Good && v.Level != picture.Fair
			holds = holds && !bad
			told++
			assert.Equal(t, bad, strings.Contains(said, strings.TrimPrefix(v.Text, notKnown)), "%s: %s", name, v.Text)
		}
		assert.Equal(t, holds, j.Headline().Tone == judge.Clear, name)
		assert.Contains(t, said, j.Headline().Words, "one headline")
	}
	assert.Greater(t, told, 80)
}

// failing are those that are known not to do.
func failing(all []picture.Verdict) []picture.Verdict {
	return slices.DeleteFunc(slices.Clone(all), func(v picture.Verdict) bool { return v.Level != picture.Poor })
}
