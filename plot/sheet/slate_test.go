package sheet

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func slates() []Slate {
	one := Slate{
		Title: "Fernhollow lantern, the clip", Scene: "1", Shot: "reveal", Take: "3", Foot: "plan 0123456789abcdef",
		Lines: []string{"119.88 frames/s, shown at 23.976: 1/5 of real speed", "keep frames 222 to 365 of the take", "rig: rail towards the table; light: key right, low fill"},
	}
	two := one
	two.Shot, two.Take, two.Scene = strings.Repeat("a-very-long-name-", 20), "", "100"
	two.Lines = append(two.Lines, strings.Repeat("light as it is on the table, ", 60))
	return []Slate{one, two, one}
}

func TestSlates(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, WriteSlates(&b, slates()))
	assert.True(t, bytes.HasPrefix(b.Bytes(), []byte("%PDF-")))
	assert.Equal(t, 2, strings.Count(b.String(), "/Type /Page\n"), "two to a page")
	require.ErrorContains(t, WriteSlates(&b, nil), "no slate to write")
	assert.Error(t, WriteSlates(refusing{}, slates()))
}

// What does not go above the blanks to fill in is left out, and seen to be.
func TestASlateLeavesItsBlanksFree(t *testing.T) {
	assert.Equal(t, []string{"a", "b"}, few([]string{"a", "b"}, 2))
	assert.Equal(t, []string{"a", "b ..."}, few([]string{"a", "b,", "c"}, 2))
}

type refusing struct{}

func (refusing) Write([]byte) (int, error) { return 0, errors.New("full") }

// What is on a slate is read back by another program.
func TestReaderOfSlates(t *testing.T) {
	if os.Getenv(popplerVariable) == "" {
		t.Skip("set " + popplerVariable + " to read the slates back with poppler")
	}
	name := filepath.Join(t.TempDir(), "slates.pdf")
	var b bytes.Buffer
	require.NoError(t, WriteSlates(&b, slates()[:1]))
	require.NoError(t, os.WriteFile(name, b.Bytes(), 0o600))
	out, err := exec.Command("pdftotext", "-raw", name, "-").CombinedOutput()
	require.NoError(t, err)
	for _, text := range append(slates()[0].Lines, "scene", "shot", "take", "reveal", "3", "plan 0123456789abcdef") {
		assert.Contains(t, string(out), text)
	}
}
