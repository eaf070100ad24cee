package outline
import ("testing";"os";"os/exec";"bytes";"image/png";"path/filepath";"math";"sort";"fmt";"time";"openwork/geometry")
func svgIoU(file string) (float64, int, error) {
  data,_:=os.ReadFile(file)
  r,err:=Read(data,filepath.Base(file),Options{HeightMM:60})
  if err!=nil {return 0,0,err}
  out,err:=exec.Command("rsvg-convert","-h","709",file).Output()
  if err!=nil {return 0,0,err}
  p,err:=png.Decode(bytes.NewReader(out))
  if err!=nil {return 0,0,err}
  w,h:=p.Bounds().Dx(),p.Bounds().Dy()
  cov:=coverage(whole(r),w,h,float64(h)/60)
  lo,hi:=0.0,0.0
  for y:=range h {for x:=range w { _,_,_,a:=p.At(x,y).RGBA(); v:=float64(a)/65535; c:=cov[y*w+x]; lo+=math.Min(v,c);hi+=math.Max(v,c)}}
  return lo/hi, geometry.Points(whole(r)), nil
}
func TestIcons(t *testing.T){
 files,_:=filepath.Glob("/tmp/icons/mdi*/package/svg/*.svg")
 fa,_:=filepath.Glob("/tmp/icons/fort*/package/svgs/*/*.svg")
 files=append(files,fa...)
 step:=23
 type res struct{f string;v float64}
 var all []res
 var read time.Duration
 for k:=0;k<len(files);k+=step { 
  data,_:=os.ReadFile(files[k]); t0:=time.Now(); Read(data,"",Options{HeightMM:60}); read+=time.Since(t0)
  v,_,err:=svgIoU(files[k]); if err!=nil {t.Log(files[k],err);v=0}; all=append(all,res{files[k],v})}
 sort.Slice(all,func(i,j int)bool{return all[i].v<all[j].v})
 n:=0; for _,r:=range all {if r.v<.995 {n++}}
 fmt.Println("count",len(all),"under .995:",n, "mean read", read/time.Duration(len(all)))
 for _,r:=range all[:25] {fmt.Printf("%.4f %s\n",r.v,r.f)}
}
