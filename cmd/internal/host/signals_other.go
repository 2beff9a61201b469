//go:build !unix

package host

import (
	"os"
	"syscall"
)

var (
	endings, suspending []os.Signal
	failures            = []os.Signal{syscall.SIGPIPE}
)
