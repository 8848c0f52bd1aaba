import { expose } from 'comlink';
import { edgeReader } from './edgeReader';

expose(edgeReader);
