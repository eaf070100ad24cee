package outline
import ("testing";"os/exec";"bytes";"image";"image/color";"image/jpeg";"image/png";"path/filepath";"math";"math/rand";"sort";"fmt";"time";"openwork/geometry")
func TestIconScans(t *testing.T){
 files,_:=filepath.Glob("/tmp/icons/mdi*/package/svg/*.svg")
 fa,_:=filepath.Glob("/tmp/icons/fort*/package/svgs/*/*.svg")
 files=append(files,fa...)
 step:=61
 type res struct{f string;v float64;px,aw float64;pts int}
 var all []res
 var read time.Duration
 for k:=0;k<len(files);k+=step {
  out,err:=exec.Command("rsvg-convert","-h","709",files[k]).Output()
  if err!=nil {continue}
  p,_:=png.Decode(bytes.NewReader(out))
  const pad=40
  w,h:=p.Bounds().Dx()+2*pad,p.Bounds().Dy()+2*pad
  clean:=make([]float64,w*h)
  for y:=range h-2*pad{for x:=range w-2*pad{_,_,_,a:=p.At(x,y).RGBA();clean[(y+pad)*w+x+pad]=float64(a)/65535}}
  ink:=gaussBlur(clean,w,h,0.7)
  rng:=rand.New(rand.NewSource(int64(k)))
  g:=image.NewGray(image.Rect(0,0,w,h))
  for y:=range h{for x:=range w{ lamp:=1-.2*(float64(x)/float64(w)*.7+.3*float64(y)/float64(h)); v:=(235*(1-ink[y*w+x])+35*ink[y*w+x])*lamp+7*rng.NormFloat64(); g.SetGray(x,y,color.Gray{uint8(math.Max(0,math.Min(255,math.Round(v))))})}}
  var b bytes.Buffer
  jpeg.Encode(&b,g,&jpeg.Options{Quality:75})
  t0:=time.Now()
  r,err:=Read(b.Bytes(),"",Options{DPI:300}); read+=time.Since(t0)
  if err!=nil {t.Log(files[k],err);all=append(all,res{files[k],0,0,0,0});continue}
  cov:=coverage(whole(r),w,h,300/25.4)
  lo,hi:=0.0,0.0
  for i:=range cov {lo+=math.Min(cov[i],clean[i]);hi+=math.Max(cov[i],clean[i])}
  all=append(all,res{files[k],lo/hi,0,0,geometry.Points(whole(r))})
 }
 sort.Slice(all,func(i,j int)bool{return all[i].v<all[j].v})
 n:=0; for _,r:=range all {if r.v<.99 {n++}}
 fmt.Println("count",len(all),"under .99:",n,"mean read", read/time.Duration(len(all)))
 for _,r:=range all[:25] {fmt.Printf("%.4f %d %s\n",r.v,r.pts,r.f)}
}
