package preview_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/plot/preview"
)

func views(t *testing.T, m fake, every int64) []preview.View {
	t.Helper()
	v, err := finder(t, m, lantern(), 32).Views(every)
	require.NoError(t, err)
	return v
}

func TestViews(t *testing.T) {
	for _, c := range []struct {
		name                 string
		capture, play, speed string
		frames, every        int64
		want                 []preview.View
	}{
		{"each frame once", "120", "24", "", 3, 1, []preview.View{{0, 0, 1}, {1, 1, 1}, {2, 2, 1}}},
		{"every other, the last alone", "24", "24", "", 5, 2, []preview.View{{0, 0, 2}, {2, 2, 2}, {4, 4, 1}}},
		{"each captured frame held for two", "24", "24", "1/2", 2, 1, []preview.View{{0, 0, 2}, {2, 1, 2}}},
		{"one captured frame in two", "48", "24", "1", 6, 1, []preview.View{{0, 0, 1}, {1, 2, 1}, {2, 4, 1}}},
		{"uneven", "24", "24", "2/3", 4, 1, []preview.View{{0, 0, 2}, {2, 1, 1}, {3, 2, 2}, {5, 3, 1}}},
		{"more than there are", "24", "24", "", 3, 9, []preview.View{{0, 0, 3}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, views(t, shown(t, c.capture, c.play, c.speed, c.frames), c.every))
		})
	}
}

func TestViewsRefuse(t *testing.T) {
	f := finder(t, shown(t, "24", "24", "", 10_000), lantern(), 32)
	_, err := f.Views(0)
	require.ErrorContains(t, err, "1 or more")
	_, err = f.Views(3)
	require.ErrorContains(t, err, "3334 pictures")
	require.ErrorContains(t, err, "every 4 would fit")
	v, err := f.Views(4)
	require.NoError(t, err)
	assert.Len(t, v, 2500)
}
