package clip

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/logbook"
)

// builtIn is the hand-off of the built-in sequence.
func builtIn(t *testing.T) Handoff {
	t.Helper()
	j, err := Read("", nil)
	require.NoError(t, err)
	h, err := j.Handoff()
	require.NoError(t, err)
	return h
}

func (h Handoff) text(t *testing.T, name string) string {
	t.Helper()
	for _, f := range h.Files() {
		if f.Name == name {
			var b bytes.Buffer
			require.NoError(t, f.Fill(&b))
			return b.String()
		}
	}
	require.Fail(t, "there is no "+name)
	return ""
}

// The two lists of the same clip say the same of each stretch: which recording, from which
// of its frames, how many of them, and where on the timeline. Both are read here by what
// their formats are, and neither by what wrote them.
func TestTimelineAndListOfEditsAgree(t *testing.T) {
	h := builtIn(t)
	var timeline struct {
		Start struct {
			Value int64
		} `json:"global_start_time"`
		Tracks struct {
			Children []struct {
				Children []struct {
					Range struct {
						Start struct{ Value, Rate float64 } `json:"start_time"`
						Len   struct{ Value, Rate float64 } `json:"duration"`
					} `json:"source_range"`
					Effects []struct {
						Scalar float64 `json:"time_scalar"`
					}
					Media map[string]struct{ Name string } `json:"media_references"`
				}
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(h.text(t, timelineName)), &timeline))
	event := regexp.MustCompile(`(?m)^\d{3}  (\S+) +V +C +(\S+) (\S+) (\S+) (\S+)$`)
	edits := event.FindAllStringSubmatch(h.text(t, editsName), -1)
	clips := timeline.Tracks.Children[0].Children
	require.Len(t, edits, len(clips))
	require.Len(t, clips, 5)
	at := timeline.Start.Value
	for i, c := range clips {
		e := edits[i]
		assert.Equal(t, c.Media["DEFAULT_MEDIA"].Name, e[1])
		assert.EqualValues(t, c.Range.Start.Value, frames(t, e[2]))
		used := c.Range.Len.Value / c.Range.Len.Rate * c.Effects[0].Scalar * c.Range.Start.Rate
		assert.InDelta(t, used, frames(t, e[3])-frames(t, e[2]), 1e-6)
		assert.EqualValues(t, at, frames(t, e[4]))
		at += int64(c.Range.Len.Value)
		assert.EqualValues(t, at, frames(t, e[5]))
	}
}

// frames counts a label of 24 frames a second.
func frames(t *testing.T, label string) int64 {
	t.Helper()
	n := int64(0)
	for i, field := range strings.Split(label, ":") {
		v, err := strconv.ParseInt(field, 10, 64)
		require.NoError(t, err)
		n = n*[]int64{1, 60, 60, 24}[i] + v
	}
	return n
}

// There is a slate for each take that is wanted, each once, in the order to film in.
func TestSlatesOfAllTakes(t *testing.T) {
	j, err := Read("", nil)
	require.NoError(t, err)
	all, err := j.Slates()
	require.NoError(t, err)
	require.Len(t, all, j.Clip.Totals().Takes)
	seen := map[string]bool{}
	for _, s := range all {
		key := s.Shot + " " + s.Take
		assert.False(t, seen[key], key)
		seen[key] = true
		assert.Contains(t, s.Lines[0], "119.88")
	}
	assert.Equal(t, "1", all[0].Scene)
	j.Clip.Films[0].Takes = 1000
	all, err = j.Slates()
	require.NoError(t, err)
	assert.Len(t, all, len(j.Clip.Films), "one a shot, the take left blank")
	assert.Empty(t, all[0].Take)
}

// What the camera calls the takes that the log has stands on the slates of those to come; what
// was rejected, and virtual ones, does not.
func TestSlatesNameTheClipsOfTheLog(t *testing.T) {
	j, err := Read("", nil)
	require.NoError(t, err)
	j.builtIn = false
	file := filepath.Join(t.TempDir(), "lantern.toml")
	for i := range j.Jobs {
		j.Jobs[i].Shot.File = file
	}
	lines := []string{`{"record":"begin","take":1,"virtual":true}`}
	for n := 1; n <= 6; n++ {
		lines = append(lines, fmt.Sprintf(`{"record":"begin","take":%d}`, n), fmt.Sprintf(`{"record":"clip","take":%d,"clip":"A001C00%d"}`, n, n))
	}
	lines = append(lines, `{"record":"reject","take":4,"why":"glare"}`, `{"record":"keeper","take":5,"keep":true}`, `{"record":"clip","take":6}`)
	require.NoError(t, os.WriteFile(logbook.NameOf(file), []byte(strings.Join(lines, "\n")+"\n"), 0o600))
	all, err := j.Slates()
	require.NoError(t, err)
	assert.Equal(t, "7", all[0].Take)
	assert.Equal(t, "in the log: take 3 is A001C003; take 5 is A001C005, kept; take 6", all[0].Lines[len(all[0].Lines)-1])
}

func TestTheIndexNamesEveryFile(t *testing.T) {
	h := builtIn(t)
	index, page := h.text(t, "index.txt"), h.text(t, "index.html")
	for _, f := range h.files {
		assert.Contains(t, index, f.name)
		assert.Contains(t, page, `href="`+f.name+`"`)
	}
	assert.Contains(t, index, "Left out: cues.wav.")
	for line := range strings.Lines(index) {
		assert.LessOrEqual(t, len(strings.TrimSpace(line)), 80)
	}
}
