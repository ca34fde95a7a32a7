package problemfile
import ("testing";"os";"fmt";"time";"trailfieldkit/fieldkit/spares/optimum")
func TestZZ(t *testing.T){ for _,f:=range []string{"linear-100-1","linear-200-0","linear-200-1","linear-200-2","linear-500-0","pooled-200-0","pooled-200-1","pooled-200-2","pooled-500-0"} {
 b,_:=os.ReadFile("/tmp/hi/"+f+".json"); task,_:=Read(b); from:=time.Now()
 p,_:=task.problem(); ti:=0; n:=0
 _ = n; last:=0.0; lv:=0.0
 a:=task.Solve(optimum.Options{KeepGoing: func() bool { return time.Since(from) < 6*time.Second }, Found: func(a optimum.Answer){ now:=time.Since(from).Seconds(); if now>last+0.5|| a.Value>lv&&ti<12{last=now; lv=a.Value;ti++;fmt.Printf("   %.3f %v %v n=%d\n", time.Since(from).Seconds(), a.Value,a.Bound,a.Nodes)}}})
 fmt.Println(f,len(p.Columns),a.Value,a.Bound,a.Nodes,time.Since(from)) }}
