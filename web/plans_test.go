package web

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"fascia/design/panel"
	"fascia/design/plan"
)

func TestEachRevisionIsPlannedOnce(t *testing.T) {
	var made atomic.Int32
	c := newPlanCache(func(p *panel.Panel) *plan.Plan { made.Add(1); return &plan.Plan{Panel: p} })
	var pages sync.WaitGroup
	for range 20 {
		pages.Go(func() {
			for rev := range int64(3) {
				got, err := c.plan(t.Context(), "a", rev, panel.New(fmt.Sprint("Revision ", rev)))
				if err != nil || got.Panel.Name != fmt.Sprint("Revision ", rev) {
					t.Errorf("revision %d: %+v, %v", rev, got, err)
				}
			}
		})
	}
	pages.Wait()
	if made.Load() != 3 {
		t.Errorf("3 revisions were planned %d times", made.Load())
	}
}

func TestOldPlansAreDropped(t *testing.T) {
	made := map[string]int{}
	c := newPlanCache(func(p *panel.Panel) *plan.Plan { made[p.Name]++; return &plan.Plan{Panel: p} })
	ask := func(rev int64) {
		if _, err := c.plan(t.Context(), "a", rev, panel.New(fmt.Sprint(rev))); err != nil {
			t.Fatal(err)
		}
	}
	ask(0)
	for rev := int64(1); rev < 2*keptPlans; rev++ {
		ask(rev)
		ask(0) // asked for again and again, so it stays
	}
	ask(1)
	if len(c.made) != keptPlans || made["0"] != 1 || made["1"] != 2 {
		t.Errorf("%d plans kept; the used one was made %d times, the unused one %d times", len(c.made), made["0"], made["1"])
	}
}

func TestAMistakeInThePlannerFailsOneRequest(t *testing.T) {
	b := newDesk(t, func(c *Config) { c.Plan = func(*panel.Panel) *plan.Plan { panic("secret detail") } })
	id := b.counter()
	resp := b.get("/panels/" + string(id) + "/plan.json")
	got := decoded[problem](t, resp)
	if resp.StatusCode != 500 || strings.Contains(got.Text+got.Fix, "secret") || got.Request == "" {
		t.Errorf("%d %+v", resp.StatusCode, got)
	}
	if log := b.log.String(); !strings.Contains(log, "secret detail") || !strings.Contains(log, got.Request) {
		t.Errorf("log: %s", log)
	}
	if resp := b.get("/panels/" + string(id) + "/export"); resp.StatusCode != 200 {
		t.Errorf("export after that: %d", resp.StatusCode)
	}
}

func TestAReaderWhoLeavesDoesNotWaitForAPlan(t *testing.T) {
	hold := make(chan bool)
	c := newPlanCache(func(p *panel.Panel) *plan.Plan { <-hold; return &plan.Plan{Panel: p} })
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := c.plan(ctx, "a", 1, panel.New("Slow")); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	close(hold)
	if got, err := c.plan(t.Context(), "a", 1, panel.New("Slow")); err != nil || got.Panel.Name != "Slow" {
		t.Errorf("the next reader got %v, %v", got, err)
	}
}
