package page

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTextsAreToldApart(t *testing.T) {
	b := browsed(t)
	var got apartAnswer
	status, body := b.asked("apart", m{"here": "a\nb", "there": "a\nc"}, &got)
	assert.Equal(t, http.StatusOK, status, body)
	same := Line{Text: "a"}
	assert.Equal(t, apartAnswer{Here: []Line{same, {Text: "b", Own: true}}, There: []Line{same, {Text: "c", Own: true}}}, got)
	long := strings.Repeat("x", maxBody*3/4)
	status, _ = b.asked("apart", m{"here": long, "there": long}, nil)
	assert.Equal(t, http.StatusOK, status, "two that are as long as a shot may be")
	status, body = b.asked("apart", m{"here": long, "there": long + long}, nil)
	assert.Equal(t, http.StatusRequestEntityTooLarge, status)
	assert.Contains(t, body, "a question may have 2097152 bytes")
}
