package outline
import ("testing";"time";"runtime";"os";"math";"image";"github.com/paulmach/orb";"openwork/geometry";"math/rand";"image/color")
func TestBig(t *testing.T){
 f:="/tmp/keep/a4.png"
 if _,err:=os.Stat(f);err!=nil{
  const w,h=4960,7016
  var mp orb.MultiPolygon
  for k:=range 6 { x,y:=50+float64(k%2)*100,50+float64(k/2)*90.; mp=append(mp,orb.Polygon{closedRing(4000,func(u float64)orb.Point{a:=2*math.Pi*u; r:=30+8*math.Sin(7*a)+2*math.Sin(31*a); return orb.Point{x+r*math.Cos(a),y+r*math.Sin(a)}})})}
  c:=coverage(mp,w,h,600/25.4)
  rng:=rand.New(rand.NewSource(1))
  p:=image.NewGray(image.Rect(0,0,w,h))
  for k:=range c { p.SetGray(k%w,k/w,color.Gray{uint8(math.Max(0,math.Min(255,(235-200*c[k])*(1-.2*float64(k%w)/w)+6*rng.NormFloat64())))}) }
  os.WriteFile(f,pngOf(p),0o644)
 }
 data,_:=os.ReadFile(f)
 var m runtime.MemStats
 runtime.GC(); runtime.ReadMemStats(&m); base:=m.Sys
 t0:=time.Now()
 r,err:=Read(data,"a4",Options{DPI:600})
 el:=time.Since(t0)
 runtime.ReadMemStats(&m)
 t.Log(el,err,len(r.Pieces),geometry.Points(whole(r)),"total alloc MB",m.TotalAlloc>>20,"sys MB",m.Sys>>20,"before",base>>20,len(data)>>20)
}
