import { it } from 'vitest';
import { seeded } from '../../physics/given';
import { project } from '../../../src/photo/camera';
import { solvePose } from '../../../src/photo/pose/solvePose';
import { scanDirections } from '../../../src/photo/pose/scanDirections';
import { refinePose } from '../../../src/photo/pose/refinePose';
import { spreadOf } from '../../../src/photo/pose/spread';
import { turnBetween, mirrorTwin } from '../../../src/photo/pose/cameraLooking';
it('x', () => {
  const N=Number(process.env.NN??40); const r = seeded(Number(process.env.SEED??5)); const bt=(a:number,b:number)=>a+(b-a)*r();
  for (const planar of [false, true]) for (const mode of ['focal','distance','free']) for (const n of [4,5,6,10]) {
    const count: Record<string, number> = {}; let t=0; let worst=0;
    for (let k=0;k<N;k++) {
      const dist = bt(0.8,3);
      const cam = { roll: bt(-3.1,3.1), yaw: bt(-1.05,1.05), pitch: bt(-1.05,1.05), a: bt(-.1,.3), b: bt(-.1,.3), scale: bt(800,3000), nearness: 1/dist, centerX: 1500, centerY: 1000 };
      const pts = Array.from({length:n},()=>{ const place={a:bt(-.2,.4),b:bt(-.1,.3),c: planar? 0.05 : bt(-.15,.15)}; return { place, u:[0,0,0] as const, pixel: project(cam, place), uPixel: 0.5 };});
      const f = cam.scale/cam.nearness;
      if (!planar && !process.env.ALL) continue; if (mode==='free'&&!process.env.ALL) continue;
 const t0=performance.now();
      const res = solvePose(pts, { width: 3000, height: 2000, ...(mode==='focal'?{focal:{value:f,u:f*.01}}:{}), ...(mode==='distance'?{distance:{value:dist,u:dist*.05}}:{}) });
      t+=performance.now()-t0;
      let key;
      if (!res.ok) key = res.reason; else {
        const c = res.value.camera; const e = Math.max(...(['roll','yaw','pitch','a','b','scale','nearness'] as const).map(m=>Math.abs(c[m]-cam[m])/res.value.u[m]));
        const abs = Math.max(...(['roll','yaw','pitch','a','b'] as const).map(m=>Math.abs(c[m]-cam[m])));
        key = abs<1e-6 ? 'exact' : e < 0.01 ? 'near' : 'WRONG chi '+res.value.chiSquared.toExponential(0)+' e'+e.toFixed(2);
        worst=Math.max(worst,abs);
      }
      if (/WRONG|settled/.test(key)) { const st2=spreadOf(pts); const giv={ width: 3000, height: 2000, ...(mode==='focal'?{focal:{value:f,u:f*.01}}:{}), ...(mode==='distance'?{distance:{value:dist,u:dist*.05}}:{}) };
      const near = mode==='focal'?{focal:f}:{is:1/dist};
      const st = scanDirections(pts, pts.map(p=>p.pixel), st2, near, {centerX:1500,centerY:1000}, 8);
      console.log(key, mode, n, k, 'yaw,pitch', cam.yaw.toFixed(2), cam.pitch.toFixed(2), 'dist', dist.toFixed(2), 'tw', (()=>{const t=mirrorTwin(cam,st2); return t&&turnBetween(t,cam).toFixed(3)})());
      for (const c of st) { const rr = refinePose(pts, giv, st2, c, {places:false, maxIterations: 15}); console.log('  start turn', turnBetween(c,cam).toFixed(3), 'q', (c.nearness*dist).toFixed(2), rr.ok ? 'ends '+turnBetween(rr.value.camera,cam).toFixed(4)+' chi '+rr.value.chiSquared.toExponential(1)+' tw '+(()=>{const t=mirrorTwin(rr.value.camera,st2); return t&&turnBetween(t,cam).toFixed(3)})() : rr.message); }
      }
      count[key]=(count[key]??0)+1;
    }
    console.log(planar?'plane':'space', mode, n, JSON.stringify(count), (t/N).toFixed(1)+'ms', worst.toExponential(1));
  }
}, 500000);
