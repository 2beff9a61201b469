package page

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

// A question is answered of the shot that it names, saved there, and nothing else is.
func TestAQuestionIsOfTheShotThatItNames(t *testing.T) {
	s, dir := opened(t)
	other := strings.Replace(string(starter.Shot()), `"100 mm"`, `"90 mm"`, 1)
	require.NotEqual(t, string(starter.Shot()), other)
	name := "näher & ferner.toml"
	require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(other), 0o640))

	r := request(s, http.MethodGet, "/api/start", nil)
	r.Header.Set(shotHeader, url.PathEscape(name))
	w := served(s, r)
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	assert.Contains(t, w.Body.String(), `\"90 mm\"`)

	r = request(s, http.MethodPost, "/api/save", Disk{Text: other + "\n", Revision: revision([]byte(other))})
	r.Header.Set(shotHeader, url.PathEscape(name))
	require.Equal(t, http.StatusOK, served(s, r).Code)
	now, err := os.ReadFile(filepath.Join(dir, name))
	require.NoError(t, err)
	assert.Equal(t, other+"\n", string(now))
	first, err := os.ReadFile(filepath.Join(dir, "lantern.toml"))
	require.NoError(t, err)
	assert.Equal(t, string(starter.Shot()), string(first))
}

func TestAQuestionIsOfNoShotOutsideTheFolder(t *testing.T) {
	s, _ := opened(t)
	for _, name := range []string{"../lantern.toml", "/etc/passwd", "%zz", "a/../../b.toml"} {
		r := request(s, http.MethodGet, "/api/start", nil)
		r.Header.Set(shotHeader, name)
		assert.Equal(t, http.StatusUnprocessableEntity, served(s, r).Code, name)
	}
}
