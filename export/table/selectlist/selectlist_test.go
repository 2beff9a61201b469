package selectlist_test

import (
	"encoding/csv"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/header"
	"seamrail/export/table/selectlist"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/verify"
)

func text(t *testing.T, tr *trajectory.Trajectory, filmed []selects.Filmed) string {
	return sample.Text(t, tr, func(w io.Writer, v verify.Verdict) error {
		return selectlist.Write(w, header.Of(tr.Plan(), v), selects.Of(tr.Plan(), filmed))
	})
}

// rows reads a table back with the standard library's reader, each row by title.
func rows(t *testing.T, text string) []map[string]string {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, one := range all[1:] {
		m := map[string]string{}
		for i, title := range all[0] {
			m[title] = one[i]
		}
		out = append(out, m)
	}
	return out
}

func TestKeptTakesReadBack(t *testing.T) {
	tr := sample.With(t, rig.InverseTime)
	hash := tr.Plan().Hash()
	got := rows(t, text(t, tr, []selects.Filmed{
		{Number: 2, Plan: hash, Rounds: 3, Clip: "A001C004.mov", Notes: []string{"steam, \"just\" right", "second\nline"}},
		{Number: 5, Plan: hash, Rounds: 1},
	}))
	require.Len(t, got, 2)
	require.Equal(t, "2", got[0]["take"])
	require.Equal(t, "2", got[0]["round"], "of three rounds the middle one")
	require.Equal(t, `steam, "just" right; second line`, got[0]["notes"])
	require.Equal(t, tr.Clock().Retime.String(), got[0]["retime"])
	require.Equal(t, "A001C004.mov", got[0]["clip"])
	require.Equal(t, "5", got[1]["take"])
	require.Empty(t, got[1]["clip"])
	require.Equal(t, "1", got[1]["round"])
}

func TestGolden(t *testing.T) {
	tr := sample.Through(t)
	sample.Golden(t, "planned.csv", text(t, tr, nil))
}

func TestWhatIsLeftOutIsSaid(t *testing.T) {
	tr := sample.With(t, rig.InverseTime)
	got := text(t, tr, []selects.Filmed{{Number: 4, Plan: "beef\n7,8", Rounds: 2}})
	require.Contains(t, got, "\n# left out: take 4, for it was filmed by another plan, beef 7,8\n")
	require.Empty(t, rows(t, got))
}

func TestWriterFails(t *testing.T) {
	tr := sample.With(t, rig.InverseTime)
	sample.Fails(t, len(text(t, tr, nil)), func(w io.Writer) error {
		return selectlist.Write(w, header.Of(tr.Plan(), verify.Check(tr)), selects.Of(tr.Plan(), nil))
	})
}
