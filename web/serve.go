package web

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"strconv"
	"time"
)

// How long the parts of a request may take, and how long open requests get at the end.
const (
	headerTime   = 5 * time.Second
	readTime     = 30 * time.Second
	writeTime    = 30 * time.Second
	idleTime     = 120 * time.Second
	maxHeaders   = 16 << 10
	shutdownTime = 5 * time.Second
)

// Serve answers on addr, a loopback address with a port, until ctx ends; then it lets open requests
// finish and saves what waits. Port 0 takes any free port. Once it listens it calls ready with the
// address of the page. Hosts of cfg are set from addr.
func Serve(ctx context.Context, cfg Config, addr string, ready func(url string)) error {
	listener, err := listen(addr)
	if err != nil {
		return err
	}
	port := listener.Addr().(*net.TCPAddr).Port
	cfg.Hosts = hostsOf(port)
	s, err := New(cfg)
	if err != nil {
		return errors.Join(err, listener.Close())
	}
	server := &http.Server{
		Handler: s.Handler(), ReadHeaderTimeout: headerTime, ReadTimeout: readTime, WriteTimeout: writeTime,
		IdleTimeout: idleTime, MaxHeaderBytes: maxHeaders, ErrorLog: slog.NewLogLogger(s.log.Handler(), slog.LevelWarn),
	}
	server.RegisterOnShutdown(s.events.close) // open streams would hold the shutdown up
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	if ready != nil {
		ready("http://" + listener.Addr().String())
	}
	select {
	case err := <-ended:
		return fmt.Errorf("serve %s: %w", addr, err)
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), shutdownTime)
	defer cancel()
	err = server.Shutdown(last)
	if errors.Is(err, context.DeadlineExceeded) {
		err = server.Close()
	}
	s.Close(last)
	return err
}

// listen opens addr, which must be on this machine only: there is no password, so another machine
// could do whatever the maker can.
func listen(addr string) (net.Listener, error) {
	host, _, err := net.SplitHostPort(addr)
	if err != nil {
		return nil, fmt.Errorf("address %q: write host:port, such as 127.0.0.1:7340", addr)
	}
	if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
		return nil, fmt.Errorf("address %q is not on this machine alone: use 127.0.0.1 and a port", addr)
	}
	if host == "localhost" {
		_, port, _ := net.SplitHostPort(addr)
		addr = net.JoinHostPort("127.0.0.1", port) // not whatever a hosts file makes of the name
	}
	listener, err := net.Listen("tcp", addr)
	if err != nil {
		return nil, fmt.Errorf("listen on %s: %w; choose another port with --addr", addr, err)
	}
	return listener, nil
}

// hostsOf lists the names under which a browser on this machine may ask for a port.
func hostsOf(port int) []string {
	var hosts []string
	for _, name := range []string{"127.0.0.1", "localhost", "[::1]"} {
		hosts = append(hosts, name+":"+strconv.Itoa(port))
		if port == 80 {
			hosts = append(hosts, name) // browsers leave the usual port out
		}
	}
	return hosts
}
