package main

import (
	"context"

	"testing"
	"time"

	"haunchbook.example/app/takeoff"
	"haunchbook.example/geometry"
)

// BenchmarkStop prints how long the work on a job at the limits goes on after it was
// stopped, the most of many times.
func BenchmarkStop(b *testing.B) {
	for _, kind := range []string{"edges", "holes", "doors", "bolts", "slabs", "falls"} {
		b.Run(kind, func(b *testing.B) {
			n := map[string]int{"falls": 100}[kind]
			if n == 0 {
				n = 1000
			}
			j := grown[kind](geometry.Length(n))
			began := time.Now()
			if _, err := takeoff.Of(b.Context(), j.Slabs, j.Spec, j.Units); err != nil {
				b.Skip(err)
			}
			whole := time.Since(began)
			most := time.Duration(0)
			const times = 20
			for b.Loop() {
				for k := range times {
					ctx, stop := context.WithCancel(b.Context())
					var at time.Time
					t := time.AfterFunc(whole*time.Duration(k)/times, func() { at = time.Now(); stop() })
					_, err := takeoff.Of(ctx, j.Slabs, j.Spec, j.Units)
					if err == nil || !t.Stop() && ctx.Err() == nil {
						stop()
						continue
					}
					most = max(most, time.Since(at))
				}
			}
			b.ReportMetric(float64(whole.Milliseconds()), "ms-whole")
			b.ReportMetric(float64(most.Milliseconds()), "ms-stop")
		})
	}
}
