import { it } from 'vitest';
import { seeded } from '../../physics/given';
import { project } from '../../../src/photo/camera';
import { solvePose } from '../../../src/photo/pose/solvePose';
import { scanDirections } from '../../../src/photo/pose/scanDirections';
import { refinePose } from '../../../src/photo/pose/refinePose';
import { spreadOf } from '../../../src/photo/pose/spread';
import { turnBetween, mirrorTwin } from '../../../src/photo/pose/cameraLooking';
it('y', () => {
  const r = seeded(77); const bt=(a:number,b:number)=>a+(b-a)*r(); let shown=0; let bad=0; const T0=performance.now(); let solves=0;
  for (let k=0;k<2500&&shown<6;k++) for (const mode of ['focal','distance']) { const n = 5+k%6;
      const dist = bt(0.8,3);
      const cam = { roll: bt(-3.1,3.1), yaw: bt(-1.05,1.05), pitch: bt(-1.05,1.05), a: bt(-.1,.3), b: bt(-.1,.3), scale: bt(800,3000), nearness: 1/dist, centerX: 1500, centerY: 1000 };
      const pts = Array.from({length:n},()=>{ const place={a:bt(-.2,.4),b:bt(-.1,.3),c: 0.05 }; return { place, u:[0,0,0] as const, pixel: project(cam, place), uPixel: 0.5 };});
      const f = cam.scale/cam.nearness;
      const giv = { width: 3000, height: 2000, ...(mode==='focal'?{focal:{value:f,u:f*.01}}:{}), ...(mode==='distance'?{distance:{value:dist,u:dist*.05}}:{}) };
      const res = solvePose(pts, giv); solves++;
      const wrong = res.ok ? turnBetween(res.value.camera, cam) > 1e-6 : res.reason==='not settled';
      if (!wrong) continue;
      bad++; shown++;
      const s = spreadOf(pts);
      const center={centerX:1500,centerY:1000};
      const near = mode==='focal'?{focal:f}:{is:1/dist};
      const st = scanDirections(pts, pts.map(p=>p.pixel), s, near, center, 6);
      console.log(mode, n, k, res.ok? 'chi '+res.value.chiSquared : res.reason, 'yaw,pitch', cam.yaw.toFixed(2), cam.pitch.toFixed(2), 'dist', dist.toFixed(2), 'tw', (()=>{const t=mirrorTwin(cam,s); return t&&turnBetween(t,cam).toFixed(3)})());
      for (const c of st) { const rr = refinePose(pts, giv, s, c, {places:false, maxIterations: 15}); console.log('  start turn', turnBetween(c,cam).toFixed(3), 'q', (c.nearness*dist).toFixed(2), rr.ok ? 'ends '+turnBetween(rr.value.camera,cam).toFixed(4)+' chi '+rr.value.chiSquared.toExponential(1)+' tw '+(()=>{const t=mirrorTwin(rr.value.camera,s); return t&&turnBetween(t,cam).toFixed(3)})() : rr.message); }
  }
  console.log('bad', bad, 'of', solves, ((performance.now()-T0)/solves).toFixed(1));
}, 500000);
