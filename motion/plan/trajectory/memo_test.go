package trajectory

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A round too long to keep is dropped whole, and solved anew each time.
func TestMemoDropsWhatIsTooLong(t *testing.T) {
	m := newMemo(true)
	for range maxMarks {
		m.note(mark{1, 1})
	}
	assert.True(t, m.usable)
	assert.False(t, m.playing())
	m.note(mark{2, 1})
	assert.False(t, m.usable)
	assert.Empty(t, m.marks)
	assert.False(t, m.playing())
}

func TestMemoPlaysFromTheStart(t *testing.T) {
	m := newMemo(true)
	m.note(mark{1, 1})
	m.note(mark{2, -1})
	m.next = 0
	assert.True(t, m.playing())
	m.next = 2
	assert.False(t, m.playing())
}
