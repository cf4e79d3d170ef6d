import type { Problem } from '../api/ask.ts';

/** The server's sentence, its details, and a way to ask again. */
export function Trouble({ problem, again }: { problem: Problem; again?: () => void }) {
  return (
    <div class="trouble" role="alert">
      <p>
        <strong>{problem.message}</strong>
      </p>
      {problem.issues.length > 0 && (
        <ul>
          {problem.issues.map((issue) => (
            <li key={issue.path + issue.message}>{issue.message}</li>
          ))}
        </ul>
      )}
      {again && (
        <button type="button" onClick={again}>
          Ask again
        </button>
      )}
    </div>
  );
}
